package dev.doublet.cells;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.IntStream;

/**
 * Looks for the points of a box that no row covers, by splitting the box until each part lies in
 * one row or meets none. One search is for one question: it counts its own steps, a step being one
 * row looked at in one box, and gives up when the budget is spent.
 */
final class Search {
  private final Tests tests;
  private final long budget;
  private final Predicate<Values[]> onGap;
  private final BitSet coverers = new BitSet();
  private long steps;
  private boolean cut;

  /**
   * Prepares a search.
   *
   * @param tests the rows to search among
   * @param budget how many steps the search may take
   * @param onGap takes a box no row meets, which it must not change; false ends the search
   */
  Search(Tests tests, long budget, Predicate<Values[]> onGap) {
    this.tests = tests;
    this.budget = budget;
    this.onGap = onGap;
  }

  /**
   * Hands over disjoint boxes that together are the uncovered points of {@code box}.
   *
   * @return whether the search came to its end
   */
  boolean explore(Values[] box, int[] rows) {
    return explore(box.clone(), rows, rows.length);
  }

  /** Counts steps spent outside the recursion; false when the budget is spent. */
  boolean spend(long more) {
    steps += more;
    cut |= steps > budget;
    return !cut;
  }

  /** The steps taken so far. */
  long steps() {
    return steps;
  }

  /** Tells whether the budget was spent before the end. */
  boolean cut() {
    return cut;
  }

  /** The rows that together cover all the boxes found to be covered. */
  BitSet coverers() {
    return coverers;
  }

  private boolean explore(Values[] box, int[] rows, int count) {
    int[] open = new int[box.length];
    int[] asked = new int[box.length];
    boolean narrowed = true;
    while (narrowed) {
      if (!spend(count + 1L)) {
        return false;
      }
      Arrays.fill(asked, 0);
      int[] kept = new int[count];
      int keptCount = 0;
      BitSet single = new BitSet();
      Map<Integer, List<Values>> barred = new TreeMap<>();
      for (int r = 0; r < count; r++) {
        int row = rows[r];
        int opened = tests.open(row, box, open);
        if (opened == 0) {
          coverers.set(row);
          return true;
        }
        if (opened == 1) {
          // The rest of the row is met by the whole box, so these values are covered.
          barred.computeIfAbsent(open[0], v -> new ArrayList<>()).add(tests.set(row, open[0]));
          single.set(row);
        } else if (opened > 1) {
          kept[keptCount++] = row;
          for (int i = 0; i < opened; i++) {
            asked[open[i]]++;
          }
        }
      }
      coverers.or(single);
      for (Map.Entry<Integer, List<Values>> entry : barred.entrySet()) {
        int v = entry.getKey();
        box[v] = box[v].minus(Values.union(box[v].size(), entry.getValue()));
        if (box[v].isEmpty()) {
          return true;
        }
      }
      narrowed = !barred.isEmpty() && keptCount > 0;
      rows = kept;
      count = keptCount;
    }
    return count == 0 ? onGap.test(box) : split(box, rows, count, mostAsked(asked));
  }

  private static int mostAsked(int[] asked) {
    int most = 0;
    for (int v = 1; v < asked.length; v++) {
      if (asked[v] > asked[most]) {
        most = v;
      }
    }
    return most;
  }

  private boolean split(Values[] box, int[] rows, int count, int variable) {
    Map<Values, Integer> places = new HashMap<>();
    List<Values> sets = new ArrayList<>();
    List<IntStream.Builder> rowsOfSet = new ArrayList<>();
    IntStream.Builder everywhere = IntStream.builder();
    for (int r = 0; r < count; r++) {
      Values set = tests.set(rows[r], variable);
      if (set.containsAll(box[variable])) {
        everywhere.add(rows[r]);
      } else {
        Integer place = places.putIfAbsent(set, sets.size());
        if (place == null) {
          sets.add(set);
          rowsOfSet.add(IntStream.builder());
        }
        rowsOfSet.get(place == null ? sets.size() - 1 : place).add(rows[r]);
      }
    }
    int[] common = everywhere.build().toArray();
    int[][] own = rowsOfSet.stream().map(b -> b.build().toArray()).toArray(int[][]::new);
    return Partition.of(box[variable], sets).parts().stream()
        // Where fewest rows are left a gap is likeliest, so the first witness comes early.
        .sorted(
            Comparator.comparingInt(
                part -> Arrays.stream(part.holders()).map(s -> own[s].length).sum()))
        .allMatch(
            part -> {
              int[] child =
                  IntStream.concat(
                          Arrays.stream(common),
                          Arrays.stream(part.holders()).flatMap(s -> Arrays.stream(own[s])))
                      .toArray();
              Values[] inner = box.clone();
              inner[variable] = part.values();
              return explore(inner, child, child.length);
            });
  }
}
