package dev.doublet.broker;

import java.util.Optional;

/**
 * What became of a table.
 *
 * @param offer the table
 * @param plan what was to become of it
 * @param before what its board said before; empty when it never did
 * @param answer what it said when it decided about the table; empty when it did not
 * @param now what it says at the end
 * @param kept the checksum of the table that the broker keeps for it at the end, if that is known
 * @param dry true when nothing was to be sent
 */
public record SendResult(
    TableOffer offer,
    SendPlan plan,
    Optional<BoardState> before,
    Optional<BoardState> answer,
    Optional<BoardState> now,
    Optional<String> kept,
    boolean dry) {

  /** True when a board does not show the table that it was to show. */
  public boolean isFailure() {
    return plan == SendPlan.TOO_LONG
        || plan == SendPlan.SEND && !dry && wasThere() && !(answer.isPresent() && shows(now));
  }

  /** In lines for people. */
  public String text() {
    return offer.controller()
        + ": table "
        + offer.sum()
        + ", edition "
        + offer.edition()
        + "\n  "
        + board()
        + "\n  "
        + fate()
        + "\n";
  }

  private String board() {
    if (now.isEmpty()) {
      return "no board of this name was ever at this broker" + waiting();
    }
    BoardState said = now.get();
    return switch (said.word()) {
      case "away" -> "the board was switched off" + waiting();
      case "lost" -> "the board is lost: it went without a word" + waiting();
      case "unclear" -> "its state topic says what no board says" + waiting();
      default ->
          "the board shows "
              + said.installed()
              + ", edition "
              + said.edition()
              + (said.slot().equals("none") ? ", its program's own" : ", from slot " + said.slot())
              + "; offered "
              + (said.offered().equals(Sums.NONE) ? "none" : said.offered())
              + "; "
              + said.reason();
    };
  }

  /** What a board that is not there will be offered. */
  private String waiting() {
    return kept.filter(sum -> !sum.equals(Sums.NONE)).map("; offered "::concat).orElse("");
  }

  private String fate() {
    return switch (plan) {
      case RUN_ALREADY -> "nothing to send";
      case KEPT_ALREADY -> "nothing to send: the broker keeps it for the board";
      case NO_BOARD ->
          "nothing sent, as nobody may be there to take it: --to "
              + offer.controller()
              + " sends it all the same";
      case TOO_LONG ->
          "nothing sent: it has "
              + offer.table().length
              + " bytes, and the board room for "
              + now.map(BoardState::room).orElse(0);
      case SEND -> dry ? "would be sent" : sent();
    };
  }

  private String sent() {
    if (!wasThere()) {
      return "sent: the broker keeps it for the board";
    }
    if (answer.isEmpty()) {
      return isOvertaken()
          ? "sent, but somebody has sent the board another table since"
          : "sent, but the board has said nothing of it; may this user write to "
              + offer.controller()
              + "/table?";
    }
    if (!shows(answer)) {
      return "sent, and refused";
    }
    return shows(now) ? "sent, and shown" : "sent, and shown, but no longer";
  }

  private boolean wasThere() {
    return before.filter(BoardState::isThere).isPresent();
  }

  /** True when the board was offered a table meanwhile that is not this one. */
  private boolean isOvertaken() {
    String offered = now.map(BoardState::offered).orElse("");
    return !offered.isEmpty()
        && !offered.equals(offer.sum())
        && !offered.equals(before.map(BoardState::offered).orElse(""));
  }

  private boolean shows(Optional<BoardState> board) {
    return board.filter(said -> said.installed().equals(offer.sum())).isPresent();
  }
}
