package dev.doublet.layout;

import java.util.List;

/**
 * Where a unit listens.
 *
 * @param bus the bus
 * @param addresses for DCC: the addresses as users count them, 1 to 2048, first to last; else empty
 * @param topic for MQTT: the whole topic; else empty
 * @param events for OpenLCB: the event id of each state of the kind, in order; else empty
 */
public record Command(Bus bus, List<Integer> addresses, String topic, List<Long> events) {

  /** Copies the lists. */
  public Command {
    addresses = List.copyOf(addresses);
    events = List.copyOf(events);
  }
}
