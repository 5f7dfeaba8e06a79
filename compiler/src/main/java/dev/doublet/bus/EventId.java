package dev.doublet.bus;

import java.nio.ByteBuffer;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * An OpenLCB event id: eight bytes, written as hex pairs with dots between, most significant first
 * (OpenLCB Event Identifiers Standard, adopted 22 July 2024).
 *
 * @param bits the eight bytes as one number
 */
public record EventId(long bits) {
  private static final Pattern FORM = Pattern.compile("[0-9A-Fa-f]{2}(\\.[0-9A-Fa-f]{2}){7}");
  private static final long EXTENDED = 0x0101_0200_0100_0000L;

  /** The event written so; empty when it is not eight pairs of hex digits with dots between. */
  public static Optional<EventId> parse(String text) {
    return FORM.matcher(text).matches()
        ? Optional.of(new EventId(Long.parseUnsignedLong(text.replace(".", ""), 16)))
        : Optional.empty();
  }

  /**
   * The well-known event of an extended accessory command: {@code 01.01.02.00.01}, then the address
   * in eleven bits and the value in eight.
   */
  public static EventId of(Packet.ExtendedAccessory command) {
    return new EventId(EXTENDED | (long) command.binary() << 8 | command.value());
  }

  /** The event so many places after this one; empty when it would run past the last. */
  public Optional<EventId> plus(int places) {
    long sum = bits + places;
    return Long.compareUnsigned(sum, bits) < 0 ? Optional.empty() : Optional.of(new EventId(sum));
  }

  /** As people write it: {@code 01.01.02.00.01.00.04.05}. */
  @Override
  public String toString() {
    byte[] bytes = ByteBuffer.allocate(Long.BYTES).putLong(bits).array();
    return HexFormat.ofDelimiter(".").withUpperCase().formatHex(bytes);
  }
}
