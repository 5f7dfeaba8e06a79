package dev.doublet.bus;

/** What any bytes say as a DCC packet, worked out without the code that writes packets. */
final class PacketWords {
  private PacketWords() {}

  /**
   * The words for some bytes, first byte to error byte.
   *
   * @param aspectBits how many bits of an extended packet's third byte are the value: 5 (S-9.2.1 of
   *     2012, where the upper three are 0) or 8 (MOROP NEM 672 of 2015 and later)
   */
  static String of(byte[] bytes, int aspectBits) {
    if (bytes.length < 3 || bytes.length > 6) {
      return "NotAPacket[reason=a packet has 3 to 6 bytes, not " + bytes.length + "]";
    }
    int error = 0;
    for (byte b : bytes) {
      error ^= b & 0xFF;
    }
    if (error != 0) {
      return "NotAPacket[reason=the last byte is not the exclusive-or of those before it]";
    }
    int first = bytes[0] & 0xFF;
    if (first >> 6 == 2) {
      return accessory(bytes, first, bytes[1] & 0xFF, aspectBits);
    }
    if (bytes.length == 3 && bytes[1] == 0 && (first == 0xFF || first == 0)) {
      return first == 0 ? "Reset[]" : "Idle[]";
    }
    return other("not to an accessory");
  }

  private static String accessory(byte[] bytes, int first, int second, int aspectBits) {
    int binary = (~second & 0x70) << 4 | (first & 0x3F) << 2 | second >> 1 & 3;
    if ((second & 0x80) != 0) {
      String activate = ", activate=" + ((second & 8) != 0) + "]";
      if (bytes.length != 3) {
        return other("a basic accessory's packet has 3 bytes; longer ones set its variables");
      }
      return binary >> 2 == 511
          ? "BasicBroadcast[output=" + (second & 7) + activate
          : "BasicAccessory[binary=" + binary + ", output=" + (second & 1) + activate;
    }
    if (bytes.length != 4) {
      return other("an extended accessory's packet has 4 bytes; longer ones set its variables");
    }
    if ((second & 0x89) != 1) {
      return other("the second byte is not of the form 0AAA0AA1");
    }
    int value = bytes[2] & 0xFF;
    if (value >> aspectBits != 0) {
      return other("value " + value + " takes more than " + aspectBits + " bits");
    }
    return binary == 2047
        ? "ExtendedBroadcast[value=" + value + "]"
        : "ExtendedAccessory[binary=" + binary + ", value=" + value + "]";
  }

  private static String other(String what) {
    return "Other[what=" + what + "]";
  }
}
