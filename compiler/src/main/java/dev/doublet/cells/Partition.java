package dev.doublet.cells;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The parts into which some sets of values cut another: two values are in one part when every set
 * holds both or neither.
 *
 * @param parts the parts, ordered by first value; together they are exactly the set that was cut
 */
record Partition(List<Part> parts) {

  /**
   * One part.
   *
   * @param values the values no set tells apart
   * @param holders the sets that hold these values, by place in the list of sets, rising
   */
  record Part(Values values, int[] holders) {}

  /**
   * Cuts {@code domain} by {@code sets}. The work grows with the runs of the sets and the number of
   * pieces each set covers, not with the square of the number of sets.
   */
  static Partition of(Values domain, List<Values> sets) {
    int[][] runs = new int[sets.size()][];
    for (int s = 0; s < runs.length; s++) {
      runs[s] = sets.get(s).and(domain).runs();
    }
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

  private static Partition collect(Values domain, int[] cuts, int[] label, int[][] runs) {
    int[] partOf = new int[Arrays.stream(label).max().orElse(0) + 1];
    Arrays.fill(partOf, -1);
    int[] opening = new int[cuts.length];
    Arrays.fill(opening, -1);
    List<Pieces> pieces = new ArrayList<>();
    int[] inside = domain.runs();
    for (int i = 0; i < inside.length; i += 2) {
      for (int p = Arrays.binarySearch(cuts, inside[i]); cuts[p] < inside[i + 1]; p++) {
        if (partOf[label[p]] < 0) {
          partOf[label[p]] = pieces.size();
          opening[p] = pieces.size();
          pieces.add(new Pieces(IntStream.builder(), IntStream.builder()));
        }
        pieces.get(partOf[label[p]]).runs.add(cuts[p]).add(cuts[p + 1]);
      }
    }
    for (int s = 0; s < runs.length; s++) {
      for (int i = 0; i < runs[s].length; i += 2) {
        for (int p = Arrays.binarySearch(cuts, runs[s][i]); cuts[p] < runs[s][i + 1]; p++) {
          if (opening[p] >= 0) {
            pieces.get(opening[p]).holders.add(s);
          }
        }
      }
    }
    return new Partition(pieces.stream().map(part -> part.toPart(domain.size())).toList());
  }

  /** A part while its runs and holders are still being collected. */
  private record Pieces(IntStream.Builder runs, IntStream.Builder holders) {
    Part toPart(int size) {
      return new Part(Values.ofRuns(size, runs.build().toArray()), holders.build().toArray());
    }
  }
}
