package dev.doublet.cli;

import dev.doublet.source.SourceReader.Unreadable;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;

/** Bytes as a text that people wrote. */
final class Utf8 {
  /** Far more than any text that people write, and less than any memory. */
  static final int MOST_BYTES = 16 << 20;

  private Utf8() {}

  /**
   * The text.
   *
   * @throws Unreadable when it is none in UTF-8, or larger than any that people write
   */
  static String text(byte[] bytes) throws Unreadable {
    if (bytes.length > MOST_BYTES) {
      throw Unreadable.noText("it is larger than 16 MiB", "");
    }
    if (isWide(bytes)) {
      throw Unreadable.noText("it is a text in UTF-16", "save it as UTF-8.");
    }
    try {
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      if (text.indexOf('\0') >= 0) {
        throw Unreadable.noText("this is not a text file", "");
      }
      return text.startsWith("\uFEFF") ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw Unreadable.noText("it is no text in UTF-8", "if it is a text, save it as UTF-8.");
    }
  }

  /** True for a text of two bytes a character, as it begins with a mark or with plain letters. */
  private static boolean isWide(byte[] bytes) {
    if (bytes.length < 4 || bytes.length % 2 == 1) {
      return false;
    }
    int first = bytes[0] & 0xFF;
    int second = bytes[1] & 0xFF;
    boolean marked = first + second == 0xFE + 0xFF && Math.abs(first - second) == 1;
    boolean low = bytes[0] > 0 && bytes[1] == 0 && bytes[2] > 0 && bytes[3] == 0;
    boolean high = bytes[0] == 0 && bytes[1] > 0 && bytes[2] == 0 && bytes[3] > 0;
    return marked || low || high;
  }
}
