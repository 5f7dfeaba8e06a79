package dev.doublet.cells;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Answers which rows of a table meet a set of one variable, for all rows at once. Rows are bits of
 * an array of longs, row r being bit {@code r % 64} of word {@code r / 64}.
 *
 * <p>A variable of at most 64 values has such an array for each value. A larger one has its rows'
 * runs in a search tree, so that a single value costs what it finds and not what there is.
 */
final class Index {
  private final Sheet sheet;
  private final int words;
  private final Column[] columns;
  private final long[] solid;

  Index(Table table, Sheet sheet) {
    this.sheet = sheet;
    words = (table.rows().size() + Long.SIZE - 1) / Long.SIZE;
    columns =
        IntStream.range(0, table.variables().size())
            .mapToObj(
                v ->
                    table.variables().get(v).size() <= Long.SIZE
                        ? ByValue.of(table, v, words)
                        : ByRun.of(table, v, words))
            .toArray(Column[]::new);
    solid = new long[words];
    for (int r = 0; r < table.rows().size(); r++) {
      if (!table.rows().get(r).coversNothing()) {
        set(solid, r);
      }
    }
  }

  /** How many words hold a bit for each row. */
  int words() {
    return words;
  }

  /** Writes which rows have a point in common with {@code row}, itself among them. */
  void meeting(int row, long[] rows, int from, int to) {
    if ((solid[row / Long.SIZE] >>> row % Long.SIZE & 1) == 0) {
      Arrays.fill(rows, from, to, 0);
      return;
    }
    System.arraycopy(solid, from, rows, from, to - from);
    for (int variable : sheet.tested()[row]) {
      columns[variable].keepMeeting(sheet.set(row, variable), rows, from, to);
    }
  }

  /** The earlier rows that have a point in common with {@code row}, rising. */
  int[] earlier(int row) {
    long[] meeting = new long[row / Long.SIZE + 1];
    meeting(row, meeting, 0, meeting.length);
    IntStream.Builder rows = IntStream.builder();
    for (int r = next(meeting, 0); r >= 0 && r < row; r = next(meeting, r + 1)) {
      rows.add(r);
    }
    return rows.build().toArray();
  }

  /**
   * The earlier rows that meet each row, unless more pairs meet than there are rows.
   *
   * @param steps from which each row takes one for every 64 rows, if that many are left
   */
  Optional<int[][]> fewMet(StepBudget steps) {
    int[][] met = new int[sheet.sets().length][];
    int pairs = 0;
    for (int r = 0; r < met.length; r++) {
      if (!steps.spend(words)) {
        return Optional.empty();
      }
      met[r] = earlier(r);
      pairs += met[r].length;
      if (pairs > met.length) {
        return Optional.empty();
      }
    }
    return Optional.of(met);
  }

  /**
   * Widens a cube that meets no row as far as it stays so, one variable after another. The values
   * that may be added are those of no row that meets the cube in every other variable.
   */
  Cube widened(Cube gap) {
    Values[] sets = gap.sets().toArray(Values[]::new);
    long[][] laterMeeting = new long[sets.length + 1][];
    laterMeeting[sets.length] = solid;
    for (int v = sets.length - 1; v >= 0; v--) {
      laterMeeting[v] = laterMeeting[v + 1].clone();
      keepMeeting(v, sets[v], laterMeeting[v]);
    }
    long[] meeting = solid.clone();
    for (int v = 0; v < sets.length; v++) {
      long[] elsewhere = meeting.clone();
      for (int w = 0; w < words; w++) {
        elsewhere[w] &= laterMeeting[v + 1][w];
      }
      List<Values> barred = new ArrayList<>();
      for (int r = next(elsewhere, 0); r >= 0; r = next(elsewhere, r + 1)) {
        barred.add(sheet.set(r, v));
      }
      sets[v] = Values.union(sets[v].size(), barred).complement();
      keepMeeting(v, sets[v], meeting);
    }
    return new Cube(List.of(sets));
  }

  private void keepMeeting(int variable, Values set, long[] rows) {
    if (!set.isAll()) {
      columns[variable].keepMeeting(set, rows, 0, words);
    }
  }

  /** The first row from {@code row} on whose bit is set, or -1 if there is none. */
  static int next(long[] rows, int row) {
    int w = row / Long.SIZE;
    if (w >= rows.length) {
      return -1;
    }
    long word = rows[w] >>> row % Long.SIZE << row % Long.SIZE;
    while (word == 0) {
      if (++w == rows.length) {
        return -1;
      }
      word = rows[w];
    }
    return w * Long.SIZE + Long.numberOfTrailingZeros(word);
  }

  private static void set(long[] rows, int row) {
    rows[row / Long.SIZE] |= 1L << row % Long.SIZE;
  }

  /** The index of one variable. */
  private sealed interface Column {
    /** Clears the bits of rows that do not meet a set, which is not empty. */
    void keepMeeting(Values set, long[] rows, int from, int to);
  }

  /** For each value, the rows that hold it. */
  private record ByValue(long[][] holders) implements Column {
    static ByValue of(Table table, int variable, int words) {
      long[][] holders = new long[table.variables().get(variable).size()][words];
      List<Row> rows = table.rows();
      for (int r = 0; r < rows.size(); r++) {
        for (long rest = rows.get(r).sets().get(variable).bits(); rest != 0; rest &= rest - 1) {
          set(holders[Long.numberOfTrailingZeros(rest)], r);
        }
      }
      return new ByValue(holders);
    }

    @Override
    public void keepMeeting(Values set, long[] rows, int from, int to) {
      long bits = set.bits();
      if (Long.bitCount(bits) == 1) {
        long[] only = holders[Long.numberOfTrailingZeros(bits)];
        for (int w = from; w < to; w++) {
          rows[w] &= only[w];
        }
        return;
      }
      long[] either = new long[to - from];
      for (long rest = bits; rest != 0; rest &= rest - 1) {
        long[] one = holders[Long.numberOfTrailingZeros(rest)];
        for (int w = from; w < to; w++) {
          either[w - from] |= one[w];
        }
      }
      for (int w = from; w < to; w++) {
        rows[w] &= either[w - from];
      }
    }
  }

  /**
   * The runs of the rows that are not wild, ordered by first value.
   *
   * @param wild the rows whose set is everything
   * @param starts the runs' first values
   * @param owners the runs' rows
   * @param ends a heap: the values after the runs' last from the middle on, and before it, at place
   *     i, the greater of places 2i and 2i + 1
   */
  private record ByRun(long[] wild, int[] starts, int[] owners, int[] ends) implements Column {
    static ByRun of(Table table, int variable, int words) {
      record Run(int from, int to, int row) {}

      long[] wild = new long[words];
      List<Run> runs = new ArrayList<>();
      for (int r = 0; r < table.rows().size(); r++) {
        Values set = table.rows().get(r).sets().get(variable);
        if (set.isAll()) {
          set(wild, r);
        } else {
          int[] bounds = set.runs();
          for (int i = 0; i < bounds.length; i += 2) {
            runs.add(new Run(bounds[i], bounds[i + 1], r));
          }
        }
      }
      runs.sort(Comparator.comparingInt(Run::from));
      int leaves = Integer.highestOneBit(2 * Math.max(1, runs.size()) - 1);
      int[] ends = new int[2 * leaves];
      for (int i = 0; i < runs.size(); i++) {
        ends[leaves + i] = runs.get(i).to;
      }
      for (int i = leaves - 1; i > 0; i--) {
        ends[i] = Math.max(ends[2 * i], ends[2 * i + 1]);
      }
      return new ByRun(
          wild,
          runs.stream().mapToInt(Run::from).toArray(),
          runs.stream().mapToInt(Run::row).toArray(),
          ends);
    }

    @Override
    public void keepMeeting(Values set, long[] rows, int from, int to) {
      long[] meeting = wild.clone();
      int[] bounds = set.runs();
      for (int i = 0; i < bounds.length; i += 2) {
        collect(1, 0, ends.length / 2, startingBefore(bounds[i + 1]), bounds[i], meeting);
      }
      for (int w = from; w < to; w++) {
        rows[w] &= meeting[w];
      }
    }

    /** How many runs start before {@code value}. */
    private int startingBefore(int value) {
      int low = 0;
      int high = starts.length;
      while (low < high) {
        int middle = (low + high) >>> 1;
        if (starts[middle] < value) {
          low = middle + 1;
        } else {
          high = middle;
        }
      }
      return low;
    }

    /** Adds the owners of the runs before {@code limit} that end after {@code value}. */
    private void collect(int node, int low, int high, int limit, int value, long[] meeting) {
      if (low >= limit || ends[node] <= value) {
        return;
      }
      if (high - low == 1) {
        set(meeting, owners[low]);
        return;
      }
      int middle = (low + high) >>> 1;
      collect(2 * node, low, middle, limit, value, meeting);
      collect(2 * node + 1, middle, high, limit, value, meeting);
    }
  }
}
