package dev.doublet.cells;

import java.util.List;
import java.util.Locale;

/**
 * Rows over some finite variables. Rows are known by their place in the list, from 0.
 *
 * @param variables the variables, in the order of every row's sets; with none, the only point is ()
 * @param rows the rows; in any order
 */
public record Table(List<Variable> variables, List<Row> rows) {

  /**
   * Checks that every row has one set for each variable, made for that variable's size.
   *
   * @throws IllegalArgumentException naming the first row that does not fit
   */
  public Table {
    variables = List.copyOf(variables);
    rows = List.copyOf(rows);
    for (int r = 0; r < rows.size(); r++) {
      List<Values> sets = rows.get(r).sets();
      if (sets.size() != variables.size()) {
        throw new IllegalArgumentException(
            String.format(
                Locale.ROOT,
                "row %d has %d sets for %d variables",
                r,
                sets.size(),
                variables.size()));
      }
      for (int v = 0; v < sets.size(); v++) {
        if (sets.get(v).size() != variables.get(v).size()) {
          throw new IllegalArgumentException(
              String.format(
                  Locale.ROOT,
                  "row %d has a set over %d values for %s, which has %d",
                  r,
                  sets.get(v).size(),
                  variables.get(v).name(),
                  variables.get(v).size()));
        }
      }
    }
  }
}
