package dev.doublet.bus;

import java.util.HexFormat;

/**
 * What a DCC packet says, as far as accessories are concerned (NMRA S-9.2.1, July 2012; S-9.2, July
 * 2004). Packets are whole: first byte to error byte, without preamble and start bits.
 */
public sealed interface Packet {

  /** A packet that a command station can send for an accessory. */
  sealed interface Sent extends Packet {
    /** The packet's bytes, the error byte included. */
    byte[] bytes();

    /** The bytes as people write them: {@code 81 71 09 F9}. */
    default String hex() {
      return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes());
    }
  }

  /**
   * One output of one basic accessory is switched: {@code 10AAAAAA 1AAADAAR EEEEEEEE}.
   *
   * @param binary the 11-bit address, 0 to 2047
   * @param output 0 (reverse) or 1 (normal), in the words of the OpenLCB Event Identifiers
   *     Technical Note; S-9.2.1 gives the two no meaning
   * @param activate true to switch on, false to switch off
   */
  record BasicAccessory(int binary, int output, boolean activate) implements Sent {

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
  record ExtendedAccessory(int binary, int value) implements Sent {

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

  /**
   * The same output of every basic accessory is switched: {@code 10111111 1000DDDD EEEEEEEE}. A
   * packet to decoder 511 looks the same.
   *
   * @param output 0 to 7: two for each port
   * @param activate true to switch on, false to switch off
   */
  record BasicBroadcast(int output, boolean activate) implements Sent {

    /** Refuses what the packet has no room for. */
    public BasicBroadcast {
      Ranges.require("output", output, 0, 7);
    }

    @Override
    public byte[] bytes() {
      return withError(0xBF, 0x80 | (activate ? 8 : 0) | output);
    }
  }

  /**
   * Every extended accessory is told to show an aspect: {@code 10111111 00000111 XXXXXXXX
   * EEEEEEEE}. A packet to 11-bit address 2047 looks the same.
   *
   * @param value 0 to 255; 0 is the absolute stop
   */
  record ExtendedBroadcast(int value) implements Sent {

    /** Refuses what the packet has no room for. */
    public ExtendedBroadcast {
      Ranges.require("value", value, 0, 255);
    }

    @Override
    public byte[] bytes() {
      return withError(0xBF, 0x07, value);
    }
  }

  /** Nothing is said: {@code FF 00 FF}. */
  record Idle() implements Packet {}

  /** Every decoder starts anew: {@code 00 00 00}. */
  record Reset() implements Packet {}

  /**
   * A sound packet that commands no accessory output and no aspect.
   *
   * @param what why it is none, in a few words
   */
  record Other(String what) implements Packet {}

  /**
   * Bytes that a decoder must ignore.
   *
   * @param reason why, in a few words
   */
  record NotAPacket(String reason) implements Packet {}

  /**
   * Tells what any bytes say.
   *
   * @param bytes first byte to error byte
   * @param aspectBits how many bits of an extended packet's third byte are the value: 5 (S-9.2.1 of
   *     2012, where the upper three are 0) or 8 (MOROP NEM 672 of 2015 and later). A five-bit
   *     listener takes a packet with an upper bit set for no aspect at all: cutting the value short
   *     would call up another aspect.
   */
  static Packet read(byte[] bytes, int aspectBits) {
    if (aspectBits != 5 && aspectBits != 8) {
      throw new IllegalArgumentException("a value has 5 or 8 bits, not " + aspectBits);
    }
    if (bytes.length < 3 || bytes.length > 6) {
      return new NotAPacket("a packet has 3 to 6 bytes, not " + bytes.length);
    }
    int error = 0;
    for (byte b : bytes) {
      error ^= b & 0xFF;
    }
    if (error != 0) {
      return new NotAPacket("the last byte is not the exclusive-or of those before it");
    }
    int first = bytes[0] & 0xFF;
    if (first >> 6 == 2) {
      return accessory(bytes, first, bytes[1] & 0xFF, aspectBits);
    }
    if (bytes.length == 3 && bytes[1] == 0) {
      if (first == 0xFF) {
        return new Idle();
      }
      if (first == 0) {
        return new Reset();
      }
    }
    return new Other("not to an accessory");
  }

  private static Packet accessory(byte[] bytes, int first, int second, int aspectBits) {
    int binary = (~second & 0x70) << 4 | (first & 0x3F) << 2 | second >> 1 & 3;
    if ((second & 0x80) != 0) {
      boolean activate = (second & 8) != 0;
      if (bytes.length != 3) {
        return new Other("a basic accessory's packet has 3 bytes; longer ones set its variables");
      }
      return binary >> 2 == 511
          ? new BasicBroadcast(second & 7, activate)
          : new BasicAccessory(binary, second & 1, activate);
    }
    if (bytes.length != 4) {
      return new Other("an extended accessory's packet has 4 bytes; longer ones set its variables");
    }
    if ((second & 0x89) != 1) {
      return new Other("the second byte is not of the form 0AAA0AA1");
    }
    int value = bytes[2] & 0xFF;
    if (value >> aspectBits != 0) {
      return new Other("value " + value + " takes more than " + aspectBits + " bits");
    }
    return binary == 2047 ? new ExtendedBroadcast(value) : new ExtendedAccessory(binary, value);
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
