package dev.doublet.layout;

import dev.doublet.colour.Xyz;
import java.util.Optional;

/**
 * An ordinary LED, by its own data sheet or measured.
 *
 * @param lightOrNull what it shines when its output is fully driven
 * @param volts its forward voltage; 0 when not said
 * @param milliamps what it is to have; 0 when not said, for all that an output gives
 */
public record Diode(Xyz lightOrNull, double volts, double milliamps) {
  /** Nothing was said. */
  public static final Diode UNSAID = new Diode(null, 0, 0);

  /** What it shines; empty when not said. */
  public Optional<Xyz> light() {
    return Optional.ofNullable(lightOrNull);
  }
}
