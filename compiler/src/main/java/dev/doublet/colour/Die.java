package dev.doublet.colour;

import java.util.List;

/**
 * One die of a multi-colour LED at full drive: not one light but all that the maker's bins allow.
 *
 * @param channel what it shines
 * @param corners its light at the corners of the bins, at least one; Y in millicandela
 * @param middle its light in the middle of the bins
 * @param evidence how the figures were come by and, after a colon, their source
 */
public record Die(Channel channel, List<Xyz> corners, Xyz middle, String evidence) {

  /**
   * Copies the list.
   *
   * @throws IllegalArgumentException when there is no corner, or one without light
   */
  public Die {
    corners = List.copyOf(corners);
    if (corners.isEmpty()
        || !corners.stream().allMatch(c -> c.y() > 0 && Double.isFinite(c.x() + c.y() + c.z()))) {
      throw new IllegalArgumentException("a die needs light in every corner of its bins");
    }
  }

  /** A die that was measured: one light, no bins. */
  public static Die measured(Channel channel, Chromaticity colour, double mcd) {
    Xyz light = Xyz.of(colour, mcd);
    return new Die(channel, List.of(light), light, "measured");
  }

  /** A die from the colours at the two ends and in the middle of its bins. */
  static Die of(
      Channel channel,
      Chromaticity low,
      Chromaticity high,
      Chromaticity middle,
      double lowMcd,
      double highMcd,
      String evidence) {
    List<Xyz> corners =
        List.of(
            Xyz.of(low, lowMcd), Xyz.of(low, highMcd), Xyz.of(high, lowMcd), Xyz.of(high, highMcd));
    return new Die(channel, corners, Xyz.of(middle, (lowMcd + highMcd) / 2), evidence);
  }
}
