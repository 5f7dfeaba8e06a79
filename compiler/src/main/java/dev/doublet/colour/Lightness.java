package dev.doublet.colour;

/**
 * CIE 1976 lightness L*: how bright light seems against full drive, which is not in step with how
 * strong it is.
 */
public final class Lightness {
  private static final double KNEE = 216 / 24389.0;
  private static final double SLOPE = 24389 / 27.0;

  private Lightness() {}

  /**
   * L* of light.
   *
   * @param strength 0 to 1
   * @return 0 to 100
   */
  public static double of(double strength) {
    return strength > KNEE ? 116 * StrictMath.cbrt(strength) - 16 : SLOPE * strength;
  }

  /**
   * How strong light of a lightness is.
   *
   * @param lightness L*, 0 to 100
   * @return 0 to 1
   */
  public static double strength(double lightness) {
    double root = (lightness + 16) / 116;
    return lightness > 8 ? root * root * root : lightness / SLOPE;
  }
}
