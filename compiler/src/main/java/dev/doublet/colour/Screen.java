package dev.doublet.colour;

import java.util.Locale;

/**
 * A colour of light as a screen shows it: sRGB with D65 white (IEC 61966-2-1), as bright as the
 * screen can.
 *
 * @param red 0 to 255
 * @param green 0 to 255
 * @param blue 0 to 255
 * @param within false when no screen of sRGB shows this colour, and the nearest on the way to white
 *     stands in its place
 */
public record Screen(int red, int green, int blue, boolean within) {
  /** What rounding the published matrix to four digits can cost. */
  private static final double NEAR = 5e-4;

  /** How a screen shows light of a colour. */
  public static Screen of(Chromaticity light) {
    Xyz full = Xyz.of(light, 1);
    double r = 3.2406 * full.x() - 1.5372 * full.y() - 0.4986 * full.z();
    double g = -0.9689 * full.x() + 1.8758 * full.y() + 0.0415 * full.z();
    double b = 0.0557 * full.x() - 0.2040 * full.y() + 1.0570 * full.z();
    double most = Math.max(r, Math.max(g, b));
    double least = Math.min(r, Math.min(g, b));
    double white = Math.max(0, -least);
    double scale = most + white;
    return new Screen(
        level((r + white) / scale),
        level((g + white) / scale),
        level((b + white) / scale),
        least >= -NEAR * most);
  }

  /** As pages write it: {@code #ff8000}. */
  public String hex() {
    return String.format(Locale.ROOT, "#%02x%02x%02x", red, green, blue);
  }

  private static int level(double linear) {
    return (int) Math.round(255 * coded(linear));
  }

  private static double coded(double linear) {
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * StrictMath.pow(linear, 1 / 2.4) - 0.055;
  }
}
