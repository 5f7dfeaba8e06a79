package dev.doublet.colour;

/**
 * Light as CIE 1931 tristimulus values; two lights shone together add up.
 *
 * @param x X, in the unit of Y
 * @param y Y; for an LED its luminous intensity in millicandela
 * @param z Z, in the unit of Y
 */
public record Xyz(double x, double y, double z) {

  /** No light at all. */
  public static final Xyz DARK = new Xyz(0, 0, 0);

  /**
   * Light of a colour and a brightness.
   *
   * @param colour its y must not be 0
   * @param brightness Y
   */
  public static Xyz of(Chromaticity colour, double brightness) {
    double whole = brightness / colour.y();
    return new Xyz(whole * colour.x(), brightness, whole * (1 - colour.x() - colour.y()));
  }

  /** Both lights together. */
  public Xyz plus(Xyz other) {
    return new Xyz(x + other.x, y + other.y, z + other.z);
  }

  /** This light, so many times as strong. */
  public Xyz times(double factor) {
    return new Xyz(x * factor, y * factor, z * factor);
  }

  /** The colour without the brightness; not a number for the dark. */
  public Chromaticity chromaticity() {
    double whole = x + y + z;
    return new Chromaticity(x / whole, y / whole);
  }
}
