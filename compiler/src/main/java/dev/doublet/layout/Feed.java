package dev.doublet.layout;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * What one place of a chain lights.
 *
 * @param chipOrNull the chip that stands there; null for an addressable LED
 * @param lamps the lamps it lights, counted in chain order from 0: one for an LED, and of a chip
 *     one for each output, {@link #NONE} where nothing is at an output
 */
public record Feed(Chip chipOrNull, List<Integer> lamps) {
  /** No lamp. */
  public static final int NONE = -1;

  /** Copies the list. */
  public Feed {
    lamps = List.copyOf(lamps);
  }

  /** A lamp with an LED of its own. */
  public static Feed led(int lamp) {
    return new Feed(null, List.of(lamp));
  }

  /** The chip that stands there; empty for an addressable LED. */
  public Optional<Chip> chip() {
    return Optional.ofNullable(chipOrNull);
  }

  /** The lamps without the gaps. */
  public Stream<Integer> lit() {
    return lamps.stream().filter(lamp -> lamp != NONE);
  }

  /** The same where lamps are counted from another. */
  public Feed from(int first) {
    return new Feed(
        chipOrNull, lamps.stream().map(lamp -> lamp == NONE ? NONE : lamp - first).toList());
  }

  /** Those of so many lamps which each have an LED of their own. */
  static List<Feed> leds(int lamps) {
    return IntStream.range(0, lamps).mapToObj(Feed::led).toList();
  }
}
