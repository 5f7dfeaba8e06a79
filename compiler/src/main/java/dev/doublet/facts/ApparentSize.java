package dev.doublet.facts;

import dev.doublet.colour.Seeing;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Viewing;

/**
 * How large the lamps of a signal look from where its layout is looked at.
 *
 * @param lens the angle that a lens fills, or the end of its fibre, in minutes of arc
 * @param spacing the angle between neighbouring lamps of a head, in minutes of arc
 */
public record ApparentSize(double lens, double spacing) {
  /** Of a layout that does not say from where it is looked at: no angle is below any limit. */
  private static final ApparentSize UNKNOWN = new ApparentSize(Double.NaN, Double.NaN);

  /** How signals of a build look. */
  static ApparentSize of(Layout layout, Signal.Build build) {
    return layout.viewing().map(v -> of(build, v)).orElse(UNKNOWN);
  }

  private static ApparentSize of(Signal.Build build, Viewing viewing) {
    double distance = viewing.metres() * 1000;
    return new ApparentSize(
        Seeing.angle(build.size().seen(), distance),
        Seeing.angle(build.size().onModel(viewing.lampSpacing()), distance));
  }

  /** True when lamps are so small that nobody has short-wave cones for them. */
  public boolean isTritan() {
    return lens < Seeing.TRITAN_BELOW;
  }

  /** True when the lamps of a head are seen as one, so that their place tells nothing. */
  public boolean merges() {
    return spacing < Seeing.RESOLVED;
  }
}
