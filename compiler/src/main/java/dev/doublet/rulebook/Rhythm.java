package dev.doublet.rulebook;

import dev.doublet.source.Span;

/**
 * A way of flashing that a rulebook names.
 *
 * @param name as the rulebook says it
 * @param perMinute flashes in a minute, 1 to 600
 * @param litPercent part of each flash that is lit, 1 to 99
 * @param startsDark true when the dark part of each flash comes first, so that a lamp which flashes
 *     so and one which does not take turns
 * @param span where it is declared
 */
public record Rhythm(String name, int perMinute, int litPercent, boolean startsDark, Span span) {

  /** The time from one flash to the next, in whole milliseconds, nearest. */
  public int periodMillis() {
    return (60_000 + perMinute / 2) / perMinute;
  }

  /** How long each flash is lit, in whole milliseconds, nearest and at least 1. */
  public int litMillis() {
    return Math.max(1, (periodMillis() * litPercent + 50) / 100);
  }
}
