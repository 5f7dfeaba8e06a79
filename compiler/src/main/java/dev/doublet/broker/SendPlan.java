package dev.doublet.broker;

import java.util.Optional;

/** What is to become of a table, as its board stands. */
public enum SendPlan {
  /** It is sent. */
  SEND,
  /** The board runs it already. */
  RUN_ALREADY,
  /** The board is not there, and the broker keeps the table for it already. */
  KEPT_ALREADY,
  /** No board of the name is known, so it would lie at the broker for nobody. */
  NO_BOARD,
  /** The board could not take it, and would lose its connection over it again and again. */
  TOO_LONG;

  /**
   * What is to become of a table.
   *
   * @param board what the board said last; empty when it never did
   * @param kept the checksum of the table that the broker keeps for the board, if that is known
   * @param named true when somebody asked for this board by its name
   */
  public static SendPlan of(
      TableOffer offer, Optional<BoardState> board, Optional<String> kept, boolean named) {
    boolean known = board.filter(b -> !b.word().equals("unclear")).isPresent();
    if (!known && !named) {
      return NO_BOARD;
    }
    if (board.filter(BoardState::isThere).isEmpty()) {
      return kept.filter(offer.sum()::equals).isPresent() ? KEPT_ALREADY : SEND;
    }
    if (offer.isRunBy(board.get())) {
      return RUN_ALREADY;
    }
    return offer.isTooLongFor(board.get()) ? TOO_LONG : SEND;
  }
}
