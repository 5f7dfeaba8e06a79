package dev.doublet.power;

import dev.doublet.layout.Cable;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** What wires bear, and the fuses that guard them. */
public final class Wire {
  /**
   * Amperes by AWG number, for one short wire in open air: the column for chassis wiring of the
   * Handbook of Electronic Tables and Formulas. Gauges 22 to 28 as hyperphysics.gsu.edu prints
   * them; the others from memory of the same column.
   */
  private static final Map<Integer, Double> BEARS =
      new TreeMap<>(Map.of(18, 16.0, 20, 11.0, 22, 7.0, 24, 3.5, 26, 2.2, 28, 1.4, 30, 0.86));

  /** Fuse links as they are sold, in amperes: IEC 60127-2 (from memory). */
  private static final double[] FUSES = {
    0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3,
    8, 10, 12.5, 16
  };

  /** A fuse lasts when it carries no more than this part of its rating (common practice). */
  private static final double LASTING = 0.75;

  /**
   * Cross-section for each ampere in a bundle or on a long run, in mm²: the 700 circular mils that
   * the column for power transmission of the same book goes by, about a sixth of the other one.
   */
  private static final double SQUARE_MM_PER_AMPERE = 700 * Math.PI / 4 * 0.0254 * 0.0254;

  private Wire() {}

  /** The most a wire should carry in a bundle or on a long run, in amperes. */
  public static double bearsBundled(Cable cable) {
    return cable.squareMillimetres() / SQUARE_MM_PER_AMPERE;
  }

  /**
   * The most a short wire in open air should carry, in amperes: the figure of the next thinner
   * gauge that has one, and that of AWG 18 for all thicker ones.
   */
  public static double bears(Cable cable) {
    double most = 0;
    for (Map.Entry<Integer, Double> wire : BEARS.entrySet()) {
      boolean fits =
          cable.squareMillimetres() >= Cable.ofGauge(wire.getKey(), 1).squareMillimetres();
      most = fits ? Math.max(most, wire.getValue()) : most;
    }
    return most == 0 ? BEARS.get(30) : most;
  }

  /**
   * The smallest fuse that lasts at a current and is no larger than the wire bears.
   *
   * @return amperes; empty when only a thicker wire could be guarded
   */
  public static Optional<Double> fuse(Cable cable, double amps) {
    for (double fuse : FUSES) {
      if (fuse * LASTING >= amps && fuse <= bears(cable)) {
        return Optional.of(fuse);
      }
    }
    return Optional.empty();
  }
}
