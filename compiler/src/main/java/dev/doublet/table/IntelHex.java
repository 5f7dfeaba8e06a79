package dev.doublet.table;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;

/**
 * Bytes at an address of program memory, as programs that write chips take them: Intel's
 * Hexadecimal Object File Format (Revision A, 1988). A record is a line: a colon, how many bytes,
 * an address, a type, the bytes, and what makes the sum of all these 0.
 */
public final class IntelHex {
  private static final int BYTES_A_RECORD = 16;
  private static final int DATA = 0;
  private static final int END = 1;
  private static final int PAST_THE_LAST = 0x10000;
  private static final HexFormat DIGITS = HexFormat.of().withUpperCase();

  private IntelHex() {}

  /**
   * The text of a file.
   *
   * @param at the address of the first byte; none of the others lies beyond 65,535
   */
  public static byte[] of(byte[] bytes, int at) {
    if (at < 0 || at + bytes.length > PAST_THE_LAST) {
      throw new IllegalArgumentException("such addresses want records of another type");
    }
    StringBuilder text = new StringBuilder();
    for (int from = 0; from < bytes.length; from += BYTES_A_RECORD) {
      int length = Math.min(BYTES_A_RECORD, bytes.length - from);
      record(text, DATA, at + from, bytes, from, length);
    }
    record(text, END, 0, bytes, 0, 0);
    return text.toString().getBytes(StandardCharsets.US_ASCII);
  }

  private static void record(
      StringBuilder text, int type, int at, byte[] bytes, int from, int length) {
    byte[] record = new byte[length + 5];
    record[0] = (byte) length;
    record[1] = (byte) (at >> 8);
    record[2] = (byte) at;
    record[3] = (byte) type;
    System.arraycopy(bytes, from, record, 4, length);
    int sum = 0;
    for (byte one : record) {
      sum += one;
    }
    record[length + 4] = (byte) -sum;
    text.append(':').append(DIGITS.formatHex(record)).append('\n');
  }
}
