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
    for (int i = 0; i < rows.size(); i++) {
      for (int j = i + 1; j < rows.size(); j++) {
        boolean conflict = rows.get(i).result() != rows.get(j).result();
        if ((conflict || !conflictsOnly)
            && rows.get(i).meets(rows.get(j))
            && !wantsMore.test(
                new Overlap(i, j, Cube.shared(rows.get(i), rows.get(j)), conflict))) {
          return;
        }
      }
    }
  }
}
