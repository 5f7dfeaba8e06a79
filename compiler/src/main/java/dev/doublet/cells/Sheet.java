package dev.doublet.cells;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * The rows of a table laid out for searching. A row tests a variable when it is not wild on it.
 *
 * @param everything the box of all points
 * @param sets for each row, its set for each variable
 * @param tested for each row, the variables it tests, rising
 */
record Sheet(Values[] everything, Values[][] sets, int[][] tested) {

  static Sheet of(Table table) {
    Values[] everything =
        table.variables().stream().map(v -> Values.all(v.size())).toArray(Values[]::new);
    Values[][] sets = new Values[table.rows().size()][];
    int[][] tested = new int[sets.length][];
    int[] found = new int[everything.length];
    for (int r = 0; r < sets.length; r++) {
      sets[r] = table.rows().get(r).sets().toArray(Values[]::new);
      int count = 0;
      for (int v = 0; v < found.length; v++) {
        if (!sets[r][v].isAll()) {
          found[count++] = v;
        }
      }
      tested[r] = Arrays.copyOf(found, count);
    }
    return new Sheet(everything, sets, tested);
  }

  /** The places of all rows. */
  int[] all() {
    return IntStream.range(0, sets.length).toArray();
  }

  /** The set of a row for a variable. */
  Values set(int row, int variable) {
    return sets[row][variable];
  }

  /**
   * Finds on which variables a row holds some but not all values of a box.
   *
   * @param open receives those variables, rising
   * @return how many there are, or -1 if the row and the box have no point in common
   */
  int open(int row, Values[] box, int[] open) {
    Values[] own = sets[row];
    int opened = 0;
    for (int variable : tested[row]) {
      Values inside = box[variable];
      if (!own[variable].intersects(inside)) {
        return -1;
      }
      if (!own[variable].containsAll(inside)) {
        open[opened++] = variable;
      }
    }
    return opened;
  }
}
