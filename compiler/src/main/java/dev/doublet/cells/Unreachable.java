package dev.doublet.cells;

import java.util.ArrayList;
import java.util.List;
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

  /** Enough steps for tables of a hundred thousand rows, and for seconds of work at most. */
  public static final long BUDGET = 20_000_000;

  /** Keeps its own copies of the lists. */
  public Unreachable {
    rows = List.copyOf(rows);
    undecided = List.copyOf(undecided);
  }

  /**
   * A row that no point reaches.
   *
   * @param row the row's place in the table
   * @param by earlier rows that together cover it, rising; empty only if the row covers nothing
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
   * @param budget how many steps may be taken; a step is one row looked at in one box
   */
  public static Unreachable of(Table table, long budget) {
    Tests tests = Tests.of(table);
    List<Hidden> hidden = new ArrayList<>();
    List<Integer> undecided = new ArrayList<>();
    long steps = 0;
    for (int r = 0; r < tests.rows(); r++) {
      Row row = table.rows().get(r);
      int[] earlier = IntStream.range(0, r).filter(e -> table.rows().get(e).meets(row)).toArray();
      Search search = new Search(tests, budget - steps, box -> false);
      if (row.coversNothing() || search.explore(row.sets().toArray(Values[]::new), earlier)) {
        hidden.add(new Hidden(r, search.coverers().stream().boxed().toList()));
      } else if (search.cut()) {
        undecided.add(r);
      }
      steps += search.steps();
    }
    return new Unreachable(hidden, undecided, steps);
  }
}
