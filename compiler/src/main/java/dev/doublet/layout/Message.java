package dev.doublet.layout;

import dev.doublet.bus.EventId;
import dev.doublet.bus.Packet;

/** One thing that is sent on a bus. */
public sealed interface Message {

  /**
   * A packet to an accessory.
   *
   * @param address as users count it
   * @param packet what travels on the rails
   */
  record ToAccessory(int address, Packet packet) implements Message {}

  /** A payload published to a topic. */
  record ToTopic(String topic, String payload) implements Message {}

  /** An event produced for whoever listens. */
  record ToAll(EventId event) implements Message {}
}
