package dev.doublet.cells;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Finds which results meet at some point, without making anything of every two rows that do.
 * Results that were told together once are not told again, so many rows of one point cost what a
 * few do. Results are 0 or more.
 */
public final class Clashes {
  /** So many rows of one result cost more one by one than as a set. */
  private static final int CROWD = 1_000;

  private static final long[] NONE = {};

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
    List<Told> told = new ArrayList<>();
    Map<Integer, long[]> crowds = crowds(rows, meeting.length);
    for (int i = 0; i < rows.size(); i++) {
      int result = rows.get(i).result();
      int from = (i + 1) / Long.SIZE;
      index.meeting(i, meeting, from, meeting.length);
      takeAway(crowds.getOrDefault(result, NONE), meeting);
      if (apartOrNull != null) {
        apartOrNull.meeting(i, elsewhere, from, elsewhere.length);
        takeAway(elsewhere, meeting);
      }
      told.stream().filter(t -> t.results.get(result)).forEach(t -> takeAway(t.rows, meeting));
      for (int j = Index.next(meeting, i + 1); j >= 0; j = Index.next(meeting, j + 1)) {
        if (rows.get(j).result() != result) {
          BitSet together = teller.tell(i, j);
          if (!together.isEmpty()) {
            told.add(Told.of(together, rows));
            if (together.get(result)) {
              takeAway(told.get(told.size() - 1).rows, meeting);
            }
          }
        }
      }
    }
  }

  /** The rows of each result that has so many that passing over them one by one takes long. */
  private static Map<Integer, long[]> crowds(List<Row> rows, int words) {
    Map<Integer, Integer> counts = new HashMap<>();
    rows.forEach(row -> counts.merge(row.result(), 1, Integer::sum));
    counts.values().removeIf(count -> count < CROWD);
    Map<Integer, long[]> crowds = new HashMap<>();
    for (int i = 0; i < rows.size(); i++) {
      if (counts.containsKey(rows.get(i).result())) {
        crowds.computeIfAbsent(rows.get(i).result(), r -> new long[words])[i / Long.SIZE] |=
            1L << i;
      }
    }
    return crowds;
  }

  private static void takeAway(long[] rows, long[] from) {
    for (int w = 0; w < rows.length; w++) {
      from[w] &= ~rows[w];
    }
  }

  /** Results that were told together, and the rows that have them. */
  private record Told(BitSet results, long[] rows) {
    static Told of(BitSet results, List<Row> all) {
      BitSet rows = new BitSet();
      for (int i = 0; i < all.size(); i++) {
        rows.set(i, results.get(all.get(i).result()));
      }
      return new Told(results, Arrays.copyOf(rows.toLongArray(), (all.size() + 63) / Long.SIZE));
    }
  }
}
