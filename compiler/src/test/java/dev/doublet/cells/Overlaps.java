package dev.doublet.cells;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.stream.IntStream;

/** Which two rows of a table meet, as {@link Clashes} finds when every row has its own result. */
public final class Overlaps {
  private Overlaps() {}

  /** The places of every two rows that meet, ordered by first row, then second row. */
  public static List<List<Integer>> of(Table table) {
    List<Row> rows =
        IntStream.range(0, table.rows().size())
            .mapToObj(i -> new Row(table.rows().get(i).sets(), i))
            .toList();
    return conflicts(new Table(table.variables(), rows));
  }

  /** The same of those whose results differ. */
  public static List<List<Integer>> conflicts(Table table) {
    List<List<Integer>> found = new ArrayList<>();
    Clashes.each(
        table,
        (first, second) -> {
          found.add(List.of(first, second));
          return new BitSet();
        });
    return found;
  }
}
