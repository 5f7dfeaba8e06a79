package dev.doublet.colour;

/**
 * A colour of light without its brightness: CIE 1931 x and y.
 *
 * @param x share of X in X + Y + Z
 * @param y share of Y in X + Y + Z
 */
public record Chromaticity(double x, double y) {

  /** The chromaticity of a spectrum that is equally strong everywhere. */
  public static final Chromaticity EQUAL_ENERGY = new Chromaticity(1 / 3.0, 1 / 3.0);

  /**
   * How far the true curve of pure wavelengths bows out beyond our straight pieces of 5 nm: 0.0041
   * at 517.5 nm, and a little for rounding.
   */
  private static final double BOW = 0.005;

  /**
   * True when light can have this colour: it lies within the curve of pure wavelengths and the line
   * of purples that joins its ends, or so near it that only rounding tells.
   */
  public boolean isOfLight() {
    return Outline.rim().margin(x, y) >= -BOW;
  }

  /** CIE 1976 u'. */
  public double u() {
    return 4 * x / (-2 * x + 12 * y + 3);
  }

  /** CIE 1976 v'. */
  public double v() {
    return 9 * y / (-2 * x + 12 * y + 3);
  }

  /** How far apart two colours look when brightness is left out: the distance in CIE 1976 u'v'. */
  public double difference(Chromaticity other) {
    double du = u() - other.u();
    double dv = v() - other.v();
    return Math.sqrt(du * du + dv * dv);
  }

  /** The distance to another point of the CIE 1931 diagram. */
  public double distance(Chromaticity other) {
    double dx = x - other.x;
    double dy = y - other.y;
    return Math.sqrt(dx * dx + dy * dy);
  }
}
