package dev.doublet.cells;

import java.util.List;

/**
 * One row of a table: it covers every point whose value lies in the row's set for each variable.
 *
 * @param sets one set for each variable, in the table's order; the full set is the wildcard, and a
 *     row with an empty set covers nothing
 * @param result what the row says of its points; only compared with other rows' results
 */
public record Row(List<Values> sets, int result) {

  /** Keeps its own copy of the list. */
  public Row {
    sets = List.copyOf(sets);
  }

  /** Tells whether {@code point}, one value for each variable, lies in this row. */
  public boolean covers(int... point) {
    for (int v = 0; v < sets.size(); v++) {
      if (!sets.get(v).contains(point[v])) {
        return false;
      }
    }
    return true;
  }

  /** Tells whether one of the sets is empty, so that no point lies in this row. */
  public boolean coversNothing() {
    return sets.stream().anyMatch(Values::isEmpty);
  }
}
