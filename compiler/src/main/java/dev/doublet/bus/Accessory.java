package dev.doublet.bus;

/**
 * Addresses of DCC accessories: the number a user types, and the 11-bit number inside a packet.
 *
 * <p>An 11-bit address is a decoder (its upper nine bits) and one of that decoder's four ports (its
 * lower two). Systems differ in which decoder answers to a user's address 1: decoder 1 by the
 * linear scheme (OpenLCB Event Identifiers Technical Note, 22 July 2024, which says that NMRA
 * S-9.2.1 requires it of new designs), decoder 0 where decoders are counted from 0.
 */
public final class Accessory {
  /** The lowest address a user can type. */
  public static final int LOWEST = 1;

  /** The highest address a user can type. */
  public static final int HIGHEST = 2048;

  private static final int COUNT = 2048;
  private static final int PORTS = 4;
  private static final int LAST_DECODER = 511;

  private Accessory() {}

  /**
   * The 11-bit address of a user's address.
   *
   * @param user {@value #LOWEST} to {@value #HIGHEST}
   * @param firstDecoder the decoder that answers to address 1: 1 or 0
   * @return 0 to 2047
   */
  public static int binary(int user, int firstDecoder) {
    Ranges.require("address", user, LOWEST, HIGHEST);
    Ranges.require("first decoder", firstDecoder, 0, 1);
    return (user - 1 + PORTS * firstDecoder) % COUNT;
  }

  /**
   * The user's address of an 11-bit address.
   *
   * @param binary 0 to 2047
   * @param firstDecoder the decoder that answers to address 1: 1 or 0
   * @return {@value #LOWEST} to {@value #HIGHEST}
   */
  public static int user(int binary, int firstDecoder) {
    Ranges.require("11-bit address", binary, 0, COUNT - 1);
    Ranges.require("first decoder", firstDecoder, 0, 1);
    return (binary + COUNT - PORTS * firstDecoder) % COUNT + 1;
  }

  /** The decoder of an 11-bit address: 0 to 511. */
  public static int decoder(int binary) {
    return binary / PORTS;
  }

  /**
   * True when a basic packet to this address is the same as one to all basic accessories: the four
   * addresses of decoder 511 (NMRA S-9.2.1, broadcast command for basic accessory decoders).
   */
  public static boolean basicMeetsBroadcast(int user, int firstDecoder) {
    return decoder(binary(user, firstDecoder)) == LAST_DECODER;
  }

  /**
   * True when an extended packet to this address is the same as one to all extended accessories:
   * 11-bit address 2047 (NMRA S-9.2.1, broadcast command for extended accessory decoders).
   */
  public static boolean extendedMeetsBroadcast(int user, int firstDecoder) {
    return binary(user, firstDecoder) == COUNT - 1;
  }

  /**
   * True for the addresses that run past the last decoder and come round to decoder 0; a system
   * "may" offer them (OpenLCB Event Identifiers Standard, 22 July 2024).
   */
  public static boolean comesRound(int user, int firstDecoder) {
    return user - 1 + PORTS * firstDecoder >= COUNT;
  }
}
