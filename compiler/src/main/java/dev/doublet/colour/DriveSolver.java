package dev.doublet.colour;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Finds how to drive an LED family so that a colour lies in its published region for every LED that
 * the maker's bins allow, after rounding to whole levels.
 */
public final class DriveSolver {
  /**
   * A die stays dark when the margin without it is less than so much below the best, or less than a
   * quarter: every further die costs current, and is one more that can fail and change the colour.
   * A choice of ours.
   */
  static final double WORTH = 1e-3;

  private final LedFamily family;
  private final SolvedDrives solved;

  /** Takes the LEDs. */
  public DriveSolver(LedFamily family) {
    this(family, SolvedDrives.of(family));
  }

  private DriveSolver(LedFamily family, SolvedDrives solved) {
    this.family = family;
    this.solved = solved;
  }

  /** How to show a colour of a set, as deep inside its region as the family allows. */
  public DriveAnswer solve(String colour, RegionSet set) {
    Optional<Region> region = set.region(colour);
    if (region.isEmpty()) {
      return new DriveAnswer.NotInSet(colour, set.name(), reached(colour, middle(colour)));
    }
    DriveSearch.Candidate found = known(set.name(), region.get());
    if (found.margin() >= 0) {
      return answer(colour, set.name(), region.get(), found);
    }
    List<DriveAnswer.Reached> middle = middle(colour);
    return new DriveAnswer.OutOfReach(
        colour,
        set.name(),
        region.get(),
        found.drive(),
        -found.margin(),
        family.light(found.drive()),
        reached(
            colour, middle.stream().filter(answer -> !answer.set().equals(set.name())).toList()),
        middle);
  }

  /**
   * What to send when it must be something: {@link DriveAnswer#closest} of the answer, without
   * searching for more than that takes.
   */
  public Optional<Drive> closest(String colour, RegionSet set) {
    Optional<Region> region = set.region(colour);
    if (region.isPresent()) {
      for (DriveSolver some : List.of(this, ofMiddle())) {
        DriveSearch.Candidate found = some.known(set.name(), region.get());
        if (found.margin() >= 0) {
          return Optional.of(found.drive());
        }
      }
    }
    return solve(colour, set).closest();
  }

  private DriveSolver ofMiddle() {
    return new DriveSolver(family.middle(), SolvedDrives.ofMiddle(family));
  }

  /** What an LED from the middle of the bins reaches, in any set. */
  private List<DriveAnswer.Reached> middle(String colour) {
    DriveSolver one = ofMiddle();
    List<DriveAnswer.Reached> reached = new ArrayList<>();
    for (RegionSet set : RegionSet.published()) {
      set.region(colour)
          .map(region -> one.answer(colour, set.name(), region, one.known(set.name(), region)))
          .ifPresent(reached::add);
    }
    return deepestFirst(reached);
  }

  /** What all LEDs of the bins reach; only where the one from the middle does. */
  private List<DriveAnswer.Reached> reached(String colour, List<DriveAnswer.Reached> middle) {
    return deepestFirst(
        middle.stream()
            .map(one -> answer(colour, one.set(), one.region(), known(one.set(), one.region())))
            .toList());
  }

  private static List<DriveAnswer.Reached> deepestFirst(List<DriveAnswer.Reached> answers) {
    return answers.stream()
        .filter(answer -> answer.margin() >= 0)
        .sorted(Comparator.comparingDouble(DriveAnswer.Reached::margin).reversed())
        .toList();
  }

  private DriveAnswer.Reached answer(
      String colour, String set, Region region, DriveSearch.Candidate found) {
    return new DriveAnswer.Reached(
        colour, set, region, found.drive(), found.margin(), family.light(found.drive()));
  }

  /**
   * How far inside the region the light of a drive lies, for the LED of the bins that is nearest to
   * the border or farthest out; negative outside.
   */
  public double margin(Drive drive, Region region) {
    List<Integer> lit =
        IntStream.range(0, family.dies().size()).filter(i -> drive.level(i) > 0).boxed().toList();
    int[] levels = drive.levels().stream().mapToInt(Integer::intValue).toArray();
    return new DriveSearch.Worst(family, region, lit).margin(levels, Double.NEGATIVE_INFINITY);
  }

  private DriveSearch.Candidate known(String set, Region region) {
    return solved.found(family, set, region.colour()).orElseGet(() -> search(region));
  }

  /**
   * The drive with the fewest dies that is nearly as deep as the best of all; where that makes
   * white warm, the one in the middle of white, if there is one.
   */
  DriveSearch.Candidate search(Region region) {
    DriveSearch.Candidate deepest = deepest(region);
    boolean warm = family.light(deepest.drive()).chromaticity().x() > RegionSet.WARM_ABOVE;
    return RegionSet.neutral(region)
        .filter(part -> warm)
        .map(this::deepest)
        .filter(found -> found.margin() >= 0)
        .map(f -> new DriveSearch.Candidate(f.drive(), margin(f.drive(), region), f.mcd()))
        .orElse(deepest);
  }

  private DriveSearch.Candidate deepest(Region region) {
    DriveSearch search = new DriveSearch(family, region);
    DriveSearch.Candidate deepest = best(search, family.dies().size());
    for (int count = 1; count < family.dies().size(); count++) {
      DriveSearch.Candidate found = best(search, count);
      if (isNearly(found.margin(), deepest.margin())) {
        return found;
      }
    }
    return deepest;
  }

  private static boolean isNearly(double margin, double deepest) {
    return margin >= deepest - Math.max(WORTH, deepest / 4) && (margin >= 0 || deepest < 0);
  }

  private DriveSearch.Candidate best(DriveSearch search, int count) {
    DriveSearch.Candidate best = null;
    for (int mask = 1; mask < 1 << family.dies().size(); mask++) {
      if (Integer.bitCount(mask) == count) {
        int chosen = mask;
        List<Integer> dies =
            IntStream.range(0, family.dies().size())
                .filter(i -> (chosen & 1 << i) != 0)
                .boxed()
                .toList();
        DriveSearch.Candidate found = search.best(dies);
        best = best == null || found.before(best) ? found : best;
      }
    }
    return best;
  }
}
