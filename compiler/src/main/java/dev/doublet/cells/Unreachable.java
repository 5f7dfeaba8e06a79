package dev.doublet.cells;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * The rows that can never be the first to match a point, because every point they cover is covered
 * by earlier rows, perhaps by several together.
 *
 * @param rows the unreachable rows, in the table's order
 * @param undecided the rows for which the budget was spent before an answer was known
 * @param steps how much work was done
 */
public record Unreachable(List<Hidden> rows, List<Integer> undecided, long steps) {

  /** Enough steps for an orderly table of a hundred thousand rows, and some ten seconds at most. */
  public static final long BUDGET = 20_000_000;

  /** Longer lists of covering rows are of no use in a message, and slow to shorten. */
  private static final int MOST_TO_REDUCE = 32;

  /** Keeps its own copies of the lists. */
  public Unreachable {
    rows = List.copyOf(rows);
    undecided = List.copyOf(undecided);
  }

  /**
   * A row that no point reaches.
   *
   * @param row the row's place in the table
   * @param by earlier rows that together cover it, rising: none can be left out if they are few and
   *     the budget lasted; empty if the row covers nothing
   */
  public record Hidden(int row, List<Integer> by) {
    /** Keeps its own copy of the list. */
    public Hidden {
      by = List.copyOf(by);
    }
  }

  /** Finds the unreachable rows of a table within {@link #BUDGET} steps. */
  public static Unreachable of(Table table) {
    return of(table, BUDGET);
  }

  /**
   * Finds the unreachable rows of a table.
   *
   * @param budget how many steps may be taken, shared fairly among the rows; a step is one row
   *     looked at in one box
   */
  public static Unreachable of(Table table, long budget) {
    Sheet sheet = Sheet.of(table);
    Index index = new Index(table, sheet);
    Map<Integer, Hidden> hidden = new TreeMap<>();
    List<Integer> open = IntStream.range(0, table.rows().size()).boxed().toList();
    long left = budget;
    // Each row may spend its share of what is left; the second round shares out what easy rows did
    // not need.
    for (int round = 1; round <= 2; round++) {
      List<Integer> undecided = new ArrayList<>();
      for (int k = 0; k < open.size(); k++) {
        int row = open.get(k);
        Values[] box = table.rows().get(row).sets().toArray(Values[]::new);
        Budget share = new Budget(left / (open.size() - k));
        Optional<int[]> coverers = covering(sheet, box, index.earlier(row), share);
        if (coverers.isPresent()) {
          int[] by = fewest(sheet, box, coverers.get(), share);
          hidden.put(row, new Hidden(row, Arrays.stream(by).boxed().toList()));
        } else if (share.ranOut()) {
          undecided.add(row);
        }
        left -= share.spent();
      }
      open = undecided;
    }
    return new Unreachable(List.copyOf(hidden.values()), open, budget - left);
  }

  /** The rows that were used in covering the box, or nothing if that was not achieved. */
  private static Optional<int[]> covering(Sheet sheet, Values[] box, int[] rows, Budget budget) {
    Search search = new Search(sheet, budget, gap -> false);
    return search.explore(box, rows)
        ? Optional.of(search.coverers().stream().toArray())
        : Optional.empty();
  }

  /** Leaves out rows, the last first, while the others still cover the box. */
  private static int[] fewest(Sheet sheet, Values[] box, int[] rows, Budget budget) {
    if (rows.length > MOST_TO_REDUCE) {
      return rows;
    }
    int[] kept = rows;
    int needed = 0;
    while (needed < kept.length) {
      int doubted = kept[kept.length - 1 - needed];
      int[] others = Arrays.stream(kept).filter(row -> row != doubted).toArray();
      Optional<int[]> fewer = covering(sheet, box, others, budget);
      if (fewer.isPresent()) {
        // A row found to be needed is in every cover made of these rows, so the count still holds.
        kept = fewer.get();
      } else {
        needed++;
      }
    }
    return kept;
  }
}
