package dev.doublet.bus;

import java.util.HexFormat;

/**
 * A DCC packet that a command station can send for an accessory (NMRA S-9.2.1, July 2012; S-9.2,
 * July 2004), whole: first byte to error byte, without preamble and start bits.
 */
public sealed interface Packet {

  /** The packet's bytes, the error byte included. */
  byte[] bytes();

  /** The bytes as people write them: {@code 81 71 09 F9}. */
  default String hex() {
    return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes());
  }

  /**
   * One output of one basic accessory is switched: {@code 10AAAAAA 1AAADAAR EEEEEEEE}.
   *
   * @param binary the 11-bit address, 0 to 2047
   * @param output 0 (reverse) or 1 (normal), in the words of the OpenLCB Event Identifiers
   *     Technical Note; S-9.2.1 gives the two no meaning
   * @param activate true to switch on, false to switch off
   */
  record BasicAccessory(int binary, int output, boolean activate) implements Packet {

    /** Refuses what the packet has no room for. */
    public BasicAccessory {
      Ranges.require("11-bit address", binary, 0, 2047);
      Ranges.require("output", output, 0, 1);
    }

    @Override
    public byte[] bytes() {
      int second = 0x80 | upper(binary) | (activate ? 8 : 0) | (binary & 3) << 1 | output;
      return withError(0x80 | binary >> 2 & 0x3F, second);
    }
  }

  /**
   * One extended accessory is told to show an aspect: {@code 10AAAAAA 0AAA0AA1 XXXXXXXX EEEEEEEE}.
   *
   * @param binary the 11-bit address, 0 to 2047
   * @param value 0 to 255; 0 is the absolute stop
   */
  record ExtendedAccessory(int binary, int value) implements Packet {

    /** Refuses what the packet has no room for. */
    public ExtendedAccessory {
      Ranges.require("11-bit address", binary, 0, 2047);
      Ranges.require("value", value, 0, 255);
    }

    @Override
    public byte[] bytes() {
      int second = upper(binary) | (binary & 3) << 1 | 1;
      return withError(0x80 | binary >> 2 & 0x3F, second, value);
    }
  }

  /** Address bits 10 to 8, inverted, in bits 6 to 4. */
  private static int upper(int binary) {
    return ~binary >> 4 & 0x70;
  }

  private static byte[] withError(int... data) {
    byte[] bytes = new byte[data.length + 1];
    int error = 0;
    for (int i = 0; i < data.length; i++) {
      bytes[i] = (byte) data[i];
      error ^= data[i];
    }
    bytes[data.length] = (byte) error;
    return bytes;
  }
}
