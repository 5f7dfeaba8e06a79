package dev.doublet.layout;

import dev.doublet.source.Span;

/**
 * One bus that carries commands.
 *
 * @param name as the layout calls it
 * @param speaks what travels on it
 * @param firstDecoder for DCC: the decoder that answers to address 1, which is 1 by the linear
 *     scheme and 0 where a system counts decoders from 0
 * @param aspectBits for DCC: how many bits of an extended packet's value it carries, 5 or 8
 * @param topics for MQTT: what stands before every topic; may be empty
 * @param span where it is declared
 */
public record Bus(
    String name, Speaks speaks, int firstDecoder, int aspectBits, String topics, Span span) {

  /** What a bus carries. */
  public enum Speaks {
    /** DCC accessory packets. */
    DCC,
    /** MQTT messages. */
    MQTT,
    /** OpenLCB events. */
    OPENLCB
  }
}
