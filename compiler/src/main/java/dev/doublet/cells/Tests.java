package dev.doublet.cells;

import java.util.List;

/** The rows of a table laid out for searching: each row's tests, its sets that are not wild. */
final class Tests {
  private final List<Variable> variables;
  private final int[] starts;
  private final int[] tested;
  private final Values[] sets;

  private Tests(List<Variable> variables, int[] starts, int[] tested, Values[] sets) {
    this.variables = variables;
    this.starts = starts;
    this.tested = tested;
    this.sets = sets;
  }

  static Tests of(Table table) {
    int[] starts = new int[table.rows().size() + 1];
    for (int r = 0; r < table.rows().size(); r++) {
      int count = 0;
      for (Values set : table.rows().get(r).sets()) {
        count += set.isAll() ? 0 : 1;
      }
      starts[r + 1] = Math.addExact(starts[r], count);
    }
    int[] tested = new int[starts[table.rows().size()]];
    Values[] sets = new Values[tested.length];
    int filled = 0;
    for (Row row : table.rows()) {
      for (int v = 0; v < row.sets().size(); v++) {
        if (!row.sets().get(v).isAll()) {
          tested[filled] = v;
          sets[filled++] = row.sets().get(v);
        }
      }
    }
    return new Tests(table.variables(), starts, tested, sets);
  }

  /** How many rows there are. */
  int rows() {
    return starts.length - 1;
  }

  /** The box of all points. */
  Values[] everything() {
    return variables.stream().map(v -> Values.all(v.size())).toArray(Values[]::new);
  }

  /** The set of a row for a variable. */
  Values set(int row, int variable) {
    for (int t = starts[row]; t < starts[row + 1]; t++) {
      if (tested[t] == variable) {
        return sets[t];
      }
    }
    return Values.all(variables.get(variable).size());
  }

  /**
   * Finds on which variables a row holds some but not all values of a box.
   *
   * @param open receives those variables, in rising order
   * @return how many there are, or -1 if the row and the box have no point in common
   */
  int open(int row, Values[] box, int[] open) {
    int opened = 0;
    for (int t = starts[row]; t < starts[row + 1]; t++) {
      Values inside = box[tested[t]];
      if (!sets[t].intersects(inside)) {
        return -1;
      }
      if (!sets[t].containsAll(inside)) {
        open[opened++] = tested[t];
      }
    }
    return opened;
  }
}
