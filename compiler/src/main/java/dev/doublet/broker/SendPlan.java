package dev.doublet.broker;

import java.util.Optional;

/** What is to become of a table, as its board stands. */
public enum SendPlan {
  /** It is sent. */
  SEND,
  /** The board runs it already. */
  RUN_ALREADY,
  /** No board of the name is known, so it would lie at the broker for nobody. */
  NO_BOARD,
  /** The board could not take it, and would lose its connection over it again and again. */
  TOO_LONG;

  /**
   * What is to become of a table.
   *
   * @param board what the board said last; empty when it never did
   * @param named true when somebody asked for this board by its name
   */
  public static SendPlan of(TableOffer offer, Optional<BoardState> board, boolean named) {
    if (board.isEmpty() || board.get().word().equals("unclear")) {
      return named ? SEND : NO_BOARD;
    }
    if (offer.isRunBy(board.get())) {
      return RUN_ALREADY;
    }
    return offer.isTooLongFor(board.get()) ? TOO_LONG : SEND;
  }
}
