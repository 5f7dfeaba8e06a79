package dev.doublet.layout;

import java.util.List;

/** A way of commanding a signal. */
public enum Mode {
  /** A DCC extended accessory packet: one address, and the value is the aspect's number. */
  ASPECT_NUMBER("aspect-number"),
  /** Several DCC basic addresses, whose two states together are a number. */
  BINARY_CODED("binary-coded"),
  /** Each side of each of several DCC basic addresses calls up one aspect. */
  ONE_PER_OUTPUT("one-per-output"),
  /** An MQTT topic, whose payload is an aspect's name or number. */
  TOPIC("topic"),
  /** An OpenLCB event for each aspect. */
  EVENT("event");

  private final String word;

  Mode(String word) {
    this.word = word;
  }

  /** As a layout says it. */
  public String word() {
    return word;
  }

  /** The one of a way. */
  public static Mode of(Way way) {
    return List.of(values()).stream()
        .filter(mode -> mode.word().equals(way.word()))
        .findFirst()
        .orElseThrow();
  }
}
