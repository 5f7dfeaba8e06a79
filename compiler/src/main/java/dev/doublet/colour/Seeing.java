package dev.doublet.colour;

/** What eyes resolve and notice, as figures with their sources, and the sums that go with them. */
public final class Seeing {
  /** Smallest angle that normal eyes resolve, in minutes of arc (visual acuity 1). */
  public static final double RESOLVED = 1;

  /**
   * Lamps smaller than this, in minutes of arc, fall on the middle of the fovea, which has no
   * short-wave cones (Wald 1967; Williams, MacLeod and Hayhoe 1981; Mollon 1991): compare their
   * colours as {@link Eye#TRITAN} too. The edge itself is a choice of ours.
   */
  public static final double TRITAN_BELOW = 20;

  /**
   * A difference smaller than this in u'v' is not sure to be seen, and a larger one is: seven steps
   * of 0.0011, the radius that CIE TN 001:2014 gives a step in place of MacAdam's ellipses (radius
   * from memory). SAE J578 drew its border of blue outside the seven-step ellipses round that of
   * blue-green "to ensure a visible difference".
   */
  public static final double SAME = 0.0077;

  /** Two colours that must be told apart differ at least so much in u'v'; a choice of ours. */
  public static final double APART = 0.03;

  /** Flashes in any one second that are safe (WCAG 2.2, success criterion 2.3.1). */
  public static final int SAFE_FLASHES = 3;

  /** Two rhythms are told apart when one is so many times as fast; a choice of ours. */
  public static final double RATE_APART = 1.6;

  /** Diameter of a long-range signal lens, 8 3/8 in, in mm (AREMA C&S Manual 7.1.1). */
  public static final double LENS = 213;

  /** Diameter of a short-range or dwarf signal lens, 6 3/8 in, in mm (AREMA C&S Manual 7.1.1). */
  public static final double DWARF_LENS = 162;

  private static final double MINUTES = 180 * 60 / Math.PI;

  private Seeing() {}

  /**
   * The angle that a thing fills, in minutes of arc.
   *
   * @param size in mm
   * @param distance in mm, above 0
   */
  public static double angle(double size, double distance) {
    return 2 * StrictMath.atan(size / (2 * distance)) * MINUTES;
  }

  /**
   * The size of a thing that fills an angle, in mm.
   *
   * @param minutes of arc
   * @param distance in mm
   */
  public static double size(double minutes, double distance) {
    return 2 * distance * StrictMath.tan(minutes / (2 * MINUTES));
  }

  /**
   * The distance at which a thing fills an angle, in mm.
   *
   * @param size in mm
   * @param minutes of arc, above 0
   */
  public static double distance(double size, double minutes) {
    return size / (2 * StrictMath.tan(minutes / (2 * MINUTES)));
  }
}
