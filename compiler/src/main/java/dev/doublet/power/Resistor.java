package dev.doublet.power;

import dev.doublet.layout.Chip;
import dev.doublet.layout.Diode;
import java.util.Arrays;
import java.util.OptionalInt;

/**
 * The resistor in line with an ordinary LED that is to have less current than an output gives: it
 * drops what the LED leaves of the supply, so that the output is no longer what limits (common
 * practice, from memory). What the output itself drops is left out, so that the LED gets less and
 * not more.
 */
public final class Resistor {
  /** Steps of a decade, series E12 of IEC 60063 (from memory). */
  private static final int[] STEPS = {10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82};

  /** Ohms by which a quotient may miss a whole number. */
  private static final double NOISE = 1e-6;

  private Resistor() {}

  /**
   * The least of the series, from 10 ohms up, that keeps to the current.
   *
   * @param volts of the supply
   * @return ohms; empty when the LED's forward voltage or the supply is not said, or leaves nothing
   */
  public static OptionalInt ohms(Chip chip, String colour, double volts) {
    Diode diode = chip.diode(colour);
    double left = volts - diode.volts();
    if (!chip.isLimited(colour) || diode.volts() == 0 || left <= 0) {
      return OptionalInt.empty();
    }
    double least = left / diode.milliamps() * 1000;
    int decade = 1;
    while (STEPS[STEPS.length - 1] * decade < least - NOISE) {
      decade *= 10;
    }
    int within = decade;
    return Arrays.stream(STEPS)
        .map(step -> step * within)
        .filter(r -> r >= least - NOISE)
        .findFirst();
  }
}
