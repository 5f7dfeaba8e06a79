package dev.doublet.colour;

import java.util.ArrayList;
import java.util.List;

/**
 * How a filament lamp comes on and goes out: it stays dark at first, rises in an S, and falls fast
 * with a long tail.
 *
 * <p>No time constant of a railway signal lamp is published. The model is ours: power in against
 * radiation out, with a resistance that goes with the temperature to the power 1.2 (from memory),
 * and one rate fitted so that light reaches 90 % after 250 ms, as a standard brake lamp's does
 * (UMTRI-93-37). Light is that of a black body, {@link Planck}.
 */
public final class Filament {
  /** Milliseconds after which nothing of 1 in 255 changes any more. */
  public static final int LONGEST = 512;

  private static final double COLD = 300;
  private static final double RATE = 1.525e-10;
  private static final int STEPS_PER_MS = 10;
  private static final List<Double> RISE = curve(COLD, true);
  private static final List<Double> FALL = curve(Planck.FILAMENT, false);

  private Filament() {}

  /**
   * Light of a cold lamp so long after it was switched on, against full light.
   *
   * @param ms 0 or more
   */
  public static double rise(int ms) {
    return RISE.get(Math.min(ms, LONGEST));
  }

  /**
   * Light of a lamp so long after it was switched off, against full light.
   *
   * @param ms 0 or more
   */
  public static double fall(int ms) {
    return FALL.get(Math.min(ms, LONGEST));
  }

  private static List<Double> curve(double start, boolean on) {
    List<Double> light = new ArrayList<>();
    double kelvin = start;
    double step = 1e-3 / STEPS_PER_MS;
    for (int ms = 0; ms <= LONGEST; ms++) {
      light.add(kelvin <= COLD ? 0 : Planck.light(kelvin));
      for (int i = 0; i < STEPS_PER_MS; i++) {
        // The classical Runge-Kutta step.
        double a = change(kelvin, on);
        double b = change(kelvin + step / 2 * a, on);
        double c = change(kelvin + step / 2 * b, on);
        double d = change(kelvin + step * c, on);
        kelvin += step / 6 * (a + 2 * b + 2 * c + d);
      }
    }
    return List.copyOf(light);
  }

  /** Kelvin per second. */
  private static double change(double kelvin, boolean on) {
    double power = on ? StrictMath.pow(Planck.FILAMENT, 5.2) / StrictMath.pow(kelvin, 1.2) : 0;
    double surroundings = on ? 0 : fourth(COLD);
    return RATE * (power - fourth(kelvin) + surroundings);
  }

  private static double fourth(double kelvin) {
    return kelvin * kelvin * kelvin * kelvin;
  }
}
