package dev.doublet.colour;

/** Light of a glowing black body, by Planck's law; a filament lamp is close to one. */
public final class Planck {
  /** The second radiation constant, in nm K (CODATA). */
  private static final double C2 = 1.438777e7;

  /** Colour temperature of CIE standard illuminant A, a common filament lamp, in K. */
  public static final double FILAMENT = 2856;

  private static final double FULL = look(FILAMENT).y();

  private Planck() {}

  /**
   * The light of a filament at a temperature, 1 at 2856 K.
   *
   * @param kelvin above 0
   */
  public static double light(double kelvin) {
    return look(kelvin).y() / FULL;
  }

  /** How light of a temperature looks, in K; 560 nm at 2856 K is about 1. */
  static Xyz look(double kelvin) {
    // Scaled so that 560 nm at 2856 K is about 1: the figures stay within range down to cold.
    double scale = 560.0 * 560 * 560 * 560 * 560 * StrictMath.exp(C2 / (560 * FILAMENT));
    return Observer.look(
        nm -> scale / (nm * nm * nm * nm * nm * StrictMath.expm1(C2 / (nm * kelvin))), 5);
  }
}
