package dev.doublet.broker;

import java.util.HexFormat;

/** Checksums of tables in digits. */
final class Sums {
  /** Of no table. */
  static final String NONE = "00000000";

  private static final HexFormat DIGITS = HexFormat.of().withUpperCase();

  private Sums() {}

  static String text(int sum) {
    return DIGITS.toHexDigits(sum);
  }
}
