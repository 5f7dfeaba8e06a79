package dev.doublet.broker;

import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a board last said of itself, or its broker of it. All but {@code word} is empty or 0 when
 * the board is not there.
 *
 * @param word "there", "away" after it was switched off, "lost" when it went without a word, and
 *     "unclear" for what no board says
 * @param installed the checksum of the table that it shows, eight hexadecimal digits
 * @param edition of the rulebook of that table
 * @param offered the checksum of the table offered last; zeros for none
 * @param slot where it keeps the table that it shows: 0, 1, or none for the program's own
 * @param room bytes of the longest table that it takes
 * @param reason how the last table fared, and why
 */
public record BoardState(
    String word,
    String installed,
    int edition,
    String offered,
    String slot,
    int room,
    String reason) {
  /** The reason of a board with nothing to complain of. */
  static final String SOUND = "sound";

  private static final int MOST_BYTES = 512;
  private static final Pattern SAID =
      Pattern.compile(
          "installed ([0-9A-F]{8}) edition ([0-9]{1,5}) offered ([0-9A-F]{8})"
              + " slot (0|1|none) room ([0-9]{1,5}) reason (\\P{Cntrl}+)");

  /** What the payload of a state topic says; any bytes are. */
  public static BoardState of(byte[] payload) {
    String text = payload.length > MOST_BYTES ? "" : new String(payload, StandardCharsets.UTF_8);
    Matcher said = SAID.matcher(text);
    if (said.matches()) {
      return new BoardState(
          "there",
          said.group(1),
          Integer.parseInt(said.group(2)),
          said.group(3),
          said.group(4),
          Integer.parseInt(said.group(5)),
          said.group(6));
    }
    return notThere(text.equals("away") || text.equals("lost") ? text : "unclear");
  }

  private static BoardState notThere(String word) {
    return new BoardState(word, "", 0, "", "", 0, "");
  }

  /** True while the board is at the broker, as far as that knows. */
  public boolean isThere() {
    return word.equals("there");
  }
}
