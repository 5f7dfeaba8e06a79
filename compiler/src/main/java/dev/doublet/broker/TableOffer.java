package dev.doublet.broker;

/**
 * A table for the board of a controller.
 *
 * @param controller its name, which is the board's too
 * @param edition of the rulebook that the table was made from
 * @param table its bytes, 4 at least; the last four are its checksum
 */
public record TableOffer(String controller, int edition, byte[] table) {
  /** The checksum as boards write it: eight hexadecimal digits. */
  public String sum() {
    return Sums.of(table);
  }

  /** True when the board has no more to take: it runs this table, and was offered no other. */
  public boolean isRunBy(BoardState board) {
    return board.installed().equals(sum())
        && (board.offered().equals(sum()) || board.offered().equals(Sums.NONE));
  }

  /**
   * True when a board has decided about this table: it runs it, or has a reason against it. Between
   * the two it says that the table is sound, but still runs the one before.
   */
  public boolean isDecidedBy(BoardState board) {
    return board.offered().equals(sum())
        && (board.installed().equals(sum()) || !board.reason().equals(BoardState.SOUND));
  }

  /** True when a board has no room for it. Of one that is not there it is not known. */
  public boolean isTooLongFor(BoardState board) {
    return board.isThere() && table.length > board.room();
  }
}
