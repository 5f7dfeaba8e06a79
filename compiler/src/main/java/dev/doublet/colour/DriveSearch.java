package dev.doublet.colour;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * The search for the drive whose worst LED, over all corners of the bins, lies deepest inside one
 * region.
 *
 * <p>Mixing is linear, so for a convex region the margin over drives has no second summit: a coarse
 * grid, then ever finer steps round the best few, finds the summit. The few keep the published
 * whites, which are not quite convex, and the rounding to whole levels from misleading it. One lit
 * die is always at full drive, since only the ratio makes the colour.
 */
final class DriveSearch {
  private static final int KEPT = 40;
  private static final int COARSE = 32;

  /** Low levels of a strong die change a colour most, so they lie closer. */
  private static final int[] START = {0, 2, 4, 8, 12, 16, 24, 32, 48, 64, 96, 128, 160, 192, 224};

  private final LedFamily family;
  private final Region region;

  DriveSearch(LedFamily family, Region region) {
    this.family = family;
    this.region = region;
  }

  /** A drive with its worst margin and its light in the middle of the bins. */
  record Candidate(Drive drive, double margin, double mcd) {
    /** Deeper is better, then brighter, then lower levels, first die first. */
    boolean before(Candidate other) {
      if (margin != other.margin) {
        return margin > other.margin;
      }
      if (mcd != other.mcd) {
        return mcd > other.mcd;
      }
      for (int i = 0; i < drive.levels().size(); i++) {
        if (drive.level(i) != other.drive.level(i)) {
          return drive.level(i) < other.drive.level(i);
        }
      }
      return false;
    }
  }

  /** The best drive that lights no other dies than these. */
  Candidate best(List<Integer> dies) {
    Worst worst = new Worst(family, region, dies);
    List<Candidate> kept = new ArrayList<>();
    Set<Integer> seen = new HashSet<>();
    int step = dies.size() < 3 ? 1 : COARSE;
    grid(new int[family.dies().size()], 0, step, worst, kept);
    kept.forEach(found -> seen.add(packed(levels(found))));
    while (step > 1) {
      step /= 2;
      refine(step, worst, seen, kept);
    }
    Candidate summit;
    do {
      summit = kept.get(0);
      refine(1, worst, seen, kept);
    } while (kept.get(0).before(summit));
    return summit;
  }

  /** Tries levels of the lit dies from one of them on. */
  private void grid(int[] levels, int from, int step, Worst worst, List<Candidate> kept) {
    if (from == worst.dies.length) {
      weigh(levels, worst, kept);
      return;
    }
    int die = worst.dies[from];
    levels[die] = 0;
    boolean free = from + 1 < worst.dies.length || isFull(levels);
    for (int level : free ? start(step, levels.length) : new int[0]) {
      levels[die] = level;
      grid(levels, from + 1, step, worst, kept);
    }
    levels[die] = Drive.FULL;
    grid(levels, from + 1, step, worst, kept);
    levels[die] = 0;
  }

  private static int[] start(int step, int dies) {
    return step > 1 && dies <= 3
        ? START
        : IntStream.iterate(0, level -> level < Drive.FULL, level -> level + step).toArray();
  }

  private void refine(int step, Worst worst, Set<Integer> seen, List<Candidate> kept) {
    List<Candidate> centres = List.copyOf(kept);
    for (Candidate centre : centres) {
      around(levels(centre), 0, step, worst, seen, kept);
    }
  }

  private void around(
      int[] levels, int from, int step, Worst worst, Set<Integer> seen, List<Candidate> kept) {
    if (from == worst.dies.length) {
      if (isFull(levels) && seen.add(packed(levels))) {
        weigh(levels, worst, kept);
      }
      return;
    }
    int die = worst.dies[from];
    int centre = levels[die];
    for (int level = centre - step; level <= centre + step; level += step) {
      levels[die] = Math.max(0, Math.min(Drive.FULL, level));
      around(levels, from + 1, step, worst, seen, kept);
    }
    levels[die] = centre;
  }

  private static boolean isFull(int[] levels) {
    for (int level : levels) {
      if (level == Drive.FULL) {
        return true;
      }
    }
    return false;
  }

  private static int[] levels(Candidate found) {
    return found.drive().levels().stream().mapToInt(Integer::intValue).toArray();
  }

  /** A number of its own for each drive; multiplied, since steps leave the low bits alike. */
  private static int packed(int[] levels) {
    int packed = 0;
    for (int level : levels) {
      packed = packed << 8 | level;
    }
    return packed * 0x9E3779B1;
  }

  private void weigh(int[] levels, Worst worst, List<Candidate> kept) {
    double floor =
        kept.size() < KEPT ? Double.NEGATIVE_INFINITY : kept.get(kept.size() - 1).margin();
    double margin = worst.margin(levels, floor);
    if (margin < floor) {
      return;
    }
    Drive drive = Drive.of(levels);
    Candidate found = new Candidate(drive, margin, family.light(drive).y());
    int place = kept.size();
    while (place > 0 && found.before(kept.get(place - 1))) {
      place--;
    }
    kept.add(place, found);
    if (kept.size() > KEPT) {
      kept.remove(KEPT);
    }
  }

  /**
   * The least margin of a drive over all corners of the bins of the lit dies. Corners that lie
   * farthest out move to the front, so that most drives are dismissed at once.
   */
  static final class Worst {
    private final Outline outline;
    private final int[] dies;
    private final List<double[]> combinations;

    Worst(LedFamily family, Region region, List<Integer> lit) {
      this.outline = region.outline();
      this.dies = lit.stream().mapToInt(Integer::intValue).toArray();
      List<double[]> sofar = new ArrayList<>(List.of(new double[0]));
      for (int die : dies) {
        List<double[]> longer = new ArrayList<>();
        for (double[] head : sofar) {
          for (Xyz corner : family.dies().get(die).corners()) {
            double[] row = java.util.Arrays.copyOf(head, head.length + 3);
            row[head.length] = corner.x();
            row[head.length + 1] = corner.y();
            row[head.length + 2] = corner.x() + corner.y() + corner.z();
            longer.add(row);
          }
        }
        sofar = longer;
      }
      this.combinations = sofar;
    }

    /** The margin, or some value below the floor as soon as one corner lies below it. */
    double margin(int[] levels, double floor) {
      double least = Double.POSITIVE_INFINITY;
      for (int i = 0; i < combinations.size() && least >= floor; i++) {
        double margin = at(levels, i);
        if (margin < least) {
          least = margin;
          Collections.swap(combinations, i, i / 2);
        }
      }
      return least;
    }

    private double at(int[] levels, int combination) {
      double[] row = combinations.get(combination);
      double x = 0;
      double y = 0;
      double sum = 0;
      for (int i = 0; i < dies.length; i++) {
        int level = levels[dies[i]];
        x += level * row[3 * i];
        y += level * row[3 * i + 1];
        sum += level * row[3 * i + 2];
      }
      return outline.margin(x / sum, y / sum);
    }
  }
}
