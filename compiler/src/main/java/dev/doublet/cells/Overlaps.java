package dev.doublet.cells;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;

/** Finds the pairs of rows that cover a point in common. The answer is always exact. */
public final class Overlaps {
  private Overlaps() {}

  /** All overlaps, ordered by first row, then second row. There may be as many as pairs of rows. */
  public static List<Overlap> of(Table table) {
    List<Overlap> found = new ArrayList<>();
    each(table, found::add);
    return List.copyOf(found);
  }

  /** The overlaps whose rows' results differ, in the same order as {@link #of}. */
  public static List<Overlap> conflicts(Table table) {
    List<Overlap> found = new ArrayList<>();
    eachConflict(table, found::add);
    return List.copyOf(found);
  }

  /**
   * Hands over the overlaps one at a time, in the order of {@link #of}, without keeping them.
   *
   * @param wantsMore takes an overlap; false ends the search
   */
  public static void each(Table table, Predicate<Overlap> wantsMore) {
    each(table, false, wantsMore);
  }

  /**
   * Hands over the conflicts one at a time, as {@link #each} does overlaps.
   *
   * @param wantsMore takes a conflict; false ends the search
   */
  public static void eachConflict(Table table, Predicate<Overlap> wantsMore) {
    each(table, true, wantsMore);
  }

  private static void each(Table table, boolean conflictsOnly, Predicate<Overlap> wantsMore) {
    List<Row> rows = table.rows();
    Index index = new Index(table, Sheet.of(table));
    long[] meeting = new long[index.words()];
    for (int i = 0; i < rows.size(); i++) {
      Row first = rows.get(i);
      int from = (i + 1) / Long.SIZE;
      index.meeting(i, meeting, from, meeting.length);
      for (int j = Index.next(meeting, i + 1); j >= 0; j = Index.next(meeting, j + 1)) {
        Row second = rows.get(j);
        boolean conflict = first.result() != second.result();
        if ((conflict || !conflictsOnly)
            && !wantsMore.test(new Overlap(i, j, Cube.shared(first, second), conflict))) {
          return;
        }
      }
    }
  }
}
