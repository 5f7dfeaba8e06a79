package dev.doublet.broker;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.HexFormat;

/** Checksums of tables in digits. */
final class Sums {
  /** Of no table. */
  static final String NONE = "00000000";

  private static final int BYTES = 4;
  private static final HexFormat DIGITS = HexFormat.of().withUpperCase();

  private Sums() {}

  /**
   * The checksum of a table as boards write it, its last four bytes; of anything shorter, of no
   * table.
   */
  static String of(byte[] table) {
    int at = table.length - BYTES;
    return at < 0
        ? NONE
        : DIGITS.toHexDigits(ByteBuffer.wrap(table).order(ByteOrder.LITTLE_ENDIAN).getInt(at));
  }
}
