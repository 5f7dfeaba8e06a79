package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HexFormat;
import java.util.stream.IntStream;

/**
 * LEDs that hang on a serial interface of 12 Mbit/s, sixteen of its bits for one of theirs: what
 * they are told, and whether its times are those of their data sheets.
 */
final class SerialLeds {
  static final int HERTZ = 12_000_000;

  private static final double MICROS = 1e6 / HERTZ;
  private static final int BITS = 16;
  private static final double REST = 300;

  private final StringBuilder bits = new StringBuilder();
  private String last = "";
  private int rests;

  /** Takes sixteen bits, the highest being the first. */
  void take(int sixteen) {
    if (sixteen == 0) {
      rests++;
      return;
    }
    if (rests > 0) {
      // WS2813's sheet asks for the longest rest of those we have.
      assertThat(rests * BITS * MICROS).isGreaterThanOrEqualTo(REST);
      rests = 0;
      last = bytes();
      bits.setLength(0);
    }
    int high = Integer.numberOfLeadingZeros(~(sixteen << BITS));
    assertThat(sixteen & 0xFFFF >> high).as("one high, and one low").isZero();
    boolean one = high > 6;
    hold(high * MICROS, (BITS - high) * MICROS, one);
    bits.append(one ? '1' : '0');
  }

  /**
   * Times in microseconds that WS2812B (undated copy), WS2812B-V5 (2019), SK6812RGBW (2015) and
   * WS2813 have in common: {@code FirmwareOnChipTest} has them one by one.
   */
  private static void hold(double high, double low, boolean one) {
    assertThat(high).isBetween(one ? 0.75 : 0.30, one ? 0.75 : 0.38);
    assertThat(low).isBetween(one ? 0.58 : 0.75, one ? 0.60 : 1.00);
  }

  /** The bytes before the last rest but one, in hexadecimal. */
  String frame() {
    return last;
  }

  private String bytes() {
    assertThat(bits.length() % 8).isZero();
    byte[] bytes = new byte[bits.length() / 8];
    IntStream.range(0, bytes.length)
        .forEach(i -> bytes[i] = (byte) Integer.parseInt(bits.substring(8 * i, 8 * i + 8), 2));
    return HexFormat.of().withUpperCase().formatHex(bytes);
  }
}
