package dev.doublet.colour;

import java.util.ArrayList;
import java.util.List;

/**
 * Eyes that lack one kind of cone, and normal ones: what colours look like to them, by Brettel,
 * Vienot and Mollon (1997), worked in the cone space of Smith and Pokorny with equal-energy white
 * as the neutral colour. About 8 in 100 men are red-green deficient, a quarter of them fully
 * (abstract of Optics Express 30, 8857, 2022).
 */
public enum Eye {
  /** All three kinds of cone. */
  NORMAL(0, 0),
  /** No long-wave cones: reds look dark. */
  PROTAN(575, 475),
  /** No middle-wave cones. */
  DEUTAN(575, 475),
  /** No short-wave cones; normal eyes too, for lamps below {@link Seeing#TRITAN_BELOW}. */
  TRITAN(660, 485);

  private final double longAnchor;
  private final double shortAnchor;

  Eye(double longAnchor, double shortAnchor) {
    this.longAnchor = longAnchor;
    this.shortAnchor = shortAnchor;
  }

  /** Cone answers, by the matrix that Vienot, Brettel and Mollon (1999) use. */
  private record Cones(double l, double m, double s) {
    static Cones of(Xyz light) {
      return new Cones(
          0.15514 * light.x() + 0.54312 * light.y() - 0.03286 * light.z(),
          -0.15514 * light.x() + 0.45684 * light.y() + 0.03286 * light.z(),
          0.01608 * light.z());
    }

    Xyz light() {
      double z = s / 0.01608;
      // In the sum of the first two rows X and Z cancel out.
      double y = (l + m) / (0.54312 + 0.45684);
      return new Xyz((l - 0.54312 * y + 0.03286 * z) / 0.15514, y, z);
    }

    /** The normal of the plane through the dark, this and the other. */
    Cones across(Cones other) {
      return new Cones(
          m * other.s - s * other.m, s * other.l - l * other.s, l * other.m - m * other.l);
    }
  }

  /** What looks alike to all eyes. */
  private static final Xyz NEUTRAL = new Xyz(1, 1, 1);

  /** The light that looks to normal eyes as this one looks to these. */
  public Xyz sees(Xyz light) {
    return sees(light, NEUTRAL);
  }

  /** The same where another light is neutral, such as the white of a screen. */
  Xyz sees(Xyz light, Xyz neutral) {
    return this == NORMAL ? light : sees(Cones.of(light), Cones.of(neutral)).light();
  }

  private Cones sees(Cones light, Cones neutral) {
    boolean isLong = side(light, neutral) < 0;
    Cones plane = neutral.across(Cones.of(Observer.at(isLong ? longAnchor : shortAnchor)));
    return switch (this) {
      case NORMAL -> light;
      case PROTAN ->
          new Cones(-(plane.m * light.m + plane.s * light.s) / plane.l, light.m, light.s);
      case DEUTAN ->
          new Cones(light.l, -(plane.l * light.l + plane.s * light.s) / plane.m, light.s);
      case TRITAN ->
          new Cones(light.l, light.m, -(plane.l * light.l + plane.m * light.m) / plane.s);
    };
  }

  /**
   * Below 0 for lights that are seen in the hue of the long anchor; 0 for those seen as neutral.
   */
  private double side(Cones light, Cones neutral) {
    return switch (this) {
      case NORMAL -> 0;
      case PROTAN -> light.s * neutral.m - neutral.s * light.m;
      case DEUTAN -> light.s * neutral.l - neutral.s * light.l;
      case TRITAN -> light.m * neutral.l - neutral.m * light.l;
    };
  }

  /** The colour that looks to normal eyes as this one looks to these. */
  public Chromaticity sees(Chromaticity colour) {
    return sees(Xyz.of(colour, 1)).chromaticity();
  }

  /** How far apart two colours look to these eyes, in u'v', brightness left out. */
  public double difference(Chromaticity one, Chromaticity other) {
    return sees(one).difference(sees(other));
  }

  /**
   * How far apart two colours look to these eyes at least, when each may be any light of an LED
   * whose bins have these corners. Light adds, so such an LED's colours fill the area between the
   * corners; its sides are straight in u'v' too, but for a bend at the neutral colour where these
   * eyes see one hue on this side of it and one on that.
   *
   * @param ones at least one light
   * @param others at least one light
   */
  public double leastDifference(List<Xyz> ones, List<Xyz> others) {
    return area(ones).distance(area(others));
  }

  private Hull area(List<Xyz> corners) {
    List<Hull.Point> seen = new ArrayList<>();
    for (Xyz corner : corners) {
      Chromaticity colour = sees(corner).chromaticity();
      seen.add(new Hull.Point(colour.u(), colour.v()));
    }
    long onOneSide =
        corners.stream().filter(light -> side(Cones.of(light), Cones.of(NEUTRAL)) < 0).count();
    if (onOneSide > 0 && onOneSide < corners.size()) {
      seen.add(new Hull.Point(Chromaticity.EQUAL_ENERGY.u(), Chromaticity.EQUAL_ENERGY.v()));
    }
    return Hull.of(seen);
  }
}
