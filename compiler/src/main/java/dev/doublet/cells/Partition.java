package dev.doublet.cells;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * A set of values cut into parts by other sets. There are two ways: as coarsely as possible without
 * any set being cut ({@link #apart}), and as coarsely as possible so that every set is a union of
 * parts ({@link #classes}).
 *
 * @param parts the parts, which together are exactly the set that was cut
 */
record Partition(List<Part> parts) {

  /**
   * One part.
   *
   * @param values its values
   * @param holders which of the cutting sets meet it, by place in their list, rising
   */
  record Part(Values values, int[] holders) {}

  /**
   * Cuts {@code domain} between the sets, never through one: sets that meet are in one part. Values
   * in no set are a part of their own.
   *
   * @param sets sets that meet the domain
   */
  static Partition apart(Values domain, Values[] sets) {
    return domain.size() <= Long.SIZE ? apartByBits(domain, sets) : apartByRuns(domain, sets);
  }

  /**
   * Cuts {@code domain} so finely that each part is inside or outside every set, and no finer. The
   * work grows with the parts that each set covers, not with the square of the number of sets.
   */
  static Partition classes(Values domain, Values[] sets) {
    return domain.size() <= Long.SIZE ? classesByBits(domain, sets) : classesByRuns(domain, sets);
  }

  private static Partition apartByBits(Values domain, Values[] sets) {
    long[] groups = new long[Long.SIZE];
    int count = 0;
    for (Values set : sets) {
      long joined = set.bits() & domain.bits();
      int kept = 0;
      for (int g = 0; g < count; g++) {
        if ((groups[g] & joined) != 0) {
          joined |= groups[g];
        } else {
          groups[kept++] = groups[g];
        }
      }
      groups[kept] = joined;
      count = kept + 1;
      if (joined == domain.bits()) {
        break;
      }
    }
    long rest = domain.bits();
    for (int g = 0; g < count; g++) {
      rest &= ~groups[g];
    }
    if (rest != 0) {
      groups[count++] = rest;
    }
    return new Partition(parts(domain.size(), groups, count, sets));
  }

  private static Partition classesByBits(Values domain, Values[] sets) {
    long[] classes = new long[Long.SIZE];
    classes[0] = domain.bits();
    int count = 1;
    for (Values set : sets) {
      for (int c = count - 1; c >= 0; c--) {
        long inside = classes[c] & set.bits();
        if (inside != 0 && inside != classes[c]) {
          classes[count++] = classes[c] & ~inside;
          classes[c] = inside;
        }
      }
    }
    return new Partition(parts(domain.size(), classes, count, sets));
  }

  private static List<Part> parts(int size, long[] bits, int count, Values[] sets) {
    List<Part> parts = new ArrayList<>(count);
    int[] holders = new int[sets.length];
    for (int p = 0; p < count; p++) {
      int held = 0;
      for (int s = 0; s < sets.length; s++) {
        if ((sets[s].bits() & bits[p]) != 0) {
          holders[held++] = s;
        }
      }
      parts.add(new Part(Values.ofBits(size, bits[p]), Arrays.copyOf(holders, held)));
    }
    return parts;
  }

  private static Partition apartByRuns(Values domain, Values[] sets) {
    record Run(int from, int to, int set) {}

    List<Run> runs = new ArrayList<>();
    for (int s = 0; s < sets.length; s++) {
      int[] bounds = sets[s].and(domain).runs();
      for (int i = 0; i < bounds.length; i += 2) {
        runs.add(new Run(bounds[i], bounds[i + 1], s));
      }
    }
    runs.sort(Comparator.comparingInt(Run::from));
    int[] leader = IntStream.range(0, sets.length).toArray();
    int furthest = 0;
    int latest = 0;
    for (Run run : runs) {
      // Runs that reach into each other join their sets, as does lying in one set.
      if (run.from < furthest) {
        leader[leader(leader, run.set)] = leader(leader, latest);
      }
      furthest = Math.max(furthest, run.to);
      latest = run.set;
    }
    Map<Integer, IntStream.Builder> groups = new TreeMap<>();
    for (int s = 0; s < sets.length; s++) {
      groups.computeIfAbsent(leader(leader, s), g -> IntStream.builder()).add(s);
    }
    List<Part> parts = new ArrayList<>();
    for (IntStream.Builder group : groups.values()) {
      int[] holders = group.build().toArray();
      List<Values> held = Arrays.stream(holders).mapToObj(s -> sets[s]).toList();
      parts.add(new Part(Values.union(domain.size(), held).and(domain), holders));
    }
    Values rest = domain.minus(Values.union(domain.size(), Arrays.asList(sets)));
    if (!rest.isEmpty()) {
      parts.add(new Part(rest, new int[0]));
    }
    return new Partition(parts);
  }

  /** Finds the one that stands for a set's group, and shortens the way to it. */
  private static int leader(int[] leader, int set) {
    int at = set;
    while (leader[at] != at) {
      leader[at] = leader[leader[at]];
      at = leader[at];
    }
    return at;
  }

  private static Partition classesByRuns(Values domain, Values[] sets) {
    int[][] runs = Arrays.stream(sets).map(set -> set.and(domain).runs()).toArray(int[][]::new);
    int[] cuts =
        IntStream.concat(
                Arrays.stream(domain.runs()), Arrays.stream(runs).flatMapToInt(Arrays::stream))
            .sorted()
            .distinct()
            .toArray();
    int[] label = refine(cuts, runs);
    return collect(domain, cuts, label, runs);
  }

  /**
   * Labels the piece from each cut to the next so that two pieces have one label exactly when the
   * same sets hold them. Every set gives fresh labels to the pieces it holds, one for each label
   * they had.
   */
  private static int[] refine(int[] cuts, int[][] runs) {
    int[] label = new int[cuts.length];
    int labels = 1;
    int[] fresh = new int[16];
    int[] renewedBy = new int[16];
    for (int s = 0; s < runs.length; s++) {
      for (int i = 0; i < runs[s].length; i += 2) {
        for (int p = Arrays.binarySearch(cuts, runs[s][i]); cuts[p] < runs[s][i + 1]; p++) {
          int old = label[p];
          if (renewedBy[old] != s + 1) {
            if (labels == fresh.length) {
              fresh = Arrays.copyOf(fresh, 2 * labels);
              renewedBy = Arrays.copyOf(renewedBy, 2 * labels);
            }
            renewedBy[old] = s + 1;
            fresh[old] = labels++;
          }
          label[p] = fresh[old];
        }
      }
    }
    return label;
  }

  /** Gathers the pieces of each label; the first piece of a part tells which sets hold it. */
  private static Partition collect(Values domain, int[] cuts, int[] label, int[][] runs) {
    record Pieces(IntStream.Builder runs, IntStream.Builder holders) {}

    Map<Integer, Pieces> byLabel = new TreeMap<>();
    Pieces[] opened = new Pieces[cuts.length];
    int[] inside = domain.runs();
    for (int i = 0; i < inside.length; i += 2) {
      for (int p = Arrays.binarySearch(cuts, inside[i]); cuts[p] < inside[i + 1]; p++) {
        Pieces pieces = byLabel.get(label[p]);
        if (pieces == null) {
          pieces = new Pieces(IntStream.builder(), IntStream.builder());
          byLabel.put(label[p], pieces);
          opened[p] = pieces;
        }
        pieces.runs.add(cuts[p]).add(cuts[p + 1]);
      }
    }
    for (int s = 0; s < runs.length; s++) {
      for (int i = 0; i < runs[s].length; i += 2) {
        for (int p = Arrays.binarySearch(cuts, runs[s][i]); cuts[p] < runs[s][i + 1]; p++) {
          if (opened[p] != null) {
            opened[p].holders.add(s);
          }
        }
      }
    }
    return new Partition(
        byLabel.values().stream()
            .map(
                pieces ->
                    new Part(
                        Values.ofRuns(domain.size(), pieces.runs.build().toArray()),
                        pieces.holders.build().toArray()))
            .toList());
  }
}
