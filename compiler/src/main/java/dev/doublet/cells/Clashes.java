package dev.doublet.cells;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * Finds which results meet at some point, without making anything of every two rows that do.
 * Results that were told together once are not told again, so many rows of one point cost what a
 * few do. Results are 0 or more.
 */
public final class Clashes {
  private Clashes() {}

  /** Takes two rows that meet and whose results differ. */
  @FunctionalInterface
  public interface Teller {
    /**
     * Tells of two rows, and of whatever else is best told with them.
     *
     * @param first the earlier row's place in the table
     * @param second the later row's place
     * @return results any two of which are done with; empty when the two may meet elsewhere
     */
    BitSet tell(int first, int second);
  }

  /**
   * Hands over the two rows of each conflict, ordered by first row, then second row, unless their
   * results are done with.
   */
  public static void each(Table table, Teller teller) {
    each(table, null, teller);
  }

  /**
   * The same for rows that do not meet in another table.
   *
   * @param seen as many rows
   * @param real the same rows with other sets
   */
  public static void eachOnlyIn(Table seen, Table real, Teller teller) {
    each(seen, new Index(real, Sheet.of(real)), teller);
  }

  private static void each(Table table, Index apartOrNull, Teller teller) {
    List<Row> rows = table.rows();
    Index index = new Index(table, Sheet.of(table));
    long[] meeting = new long[index.words()];
    long[] elsewhere = new long[index.words()];
    List<BitSet> told = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      int result = rows.get(i).result();
      BitSet done = doneWith(result, told);
      int from = (i + 1) / Long.SIZE;
      index.meeting(i, meeting, from, meeting.length);
      if (apartOrNull != null) {
        apartOrNull.meeting(i, elsewhere, from, elsewhere.length);
        for (int w = from; w < meeting.length; w++) {
          meeting[w] &= ~elsewhere[w];
        }
      }
      for (int j = Index.next(meeting, i + 1); j >= 0; j = Index.next(meeting, j + 1)) {
        if (!done.get(rows.get(j).result())) {
          BitSet together = teller.tell(i, j);
          if (!together.isEmpty()) {
            told.add(together);
            done = doneWith(result, told);
          }
        }
      }
    }
  }

  /** The result itself, and all that were told with it. */
  private static BitSet doneWith(int result, List<BitSet> told) {
    BitSet done = new BitSet();
    done.set(result);
    for (BitSet together : told) {
      if (together.get(result)) {
        done.or(together);
      }
    }
    return done;
  }
}
