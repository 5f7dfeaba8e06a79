package dev.doublet.power;

import java.util.ArrayList;
import java.util.List;

/**
 * A part of a two-wire line that no other part touches: between two feeds, or from the only feed on
 * one side to an end. Places are counted in equal pieces of line from its start, LEDs stand at 1,
 * 2, 3 and so on, and feeds hold their place at one voltage.
 *
 * <p>A current drawn at one place lowers the voltage at another by the current times a resistance
 * that both share, and the two may be swapped (reciprocity). For places <i>p</i> not beyond
 * <i>q</i> that resistance is {@code near(p) * far(q)} pieces: between feeds at <i>a</i> and
 * <i>b</i>, (<i>p</i> - <i>a</i>)(<i>b</i> - <i>q</i>) / (<i>b</i> - <i>a</i>), by Kirchhoff; with
 * one feed the way to it that both have in common. That it is a product makes {@link Flow} fast.
 *
 * @param from the first place that is not fed
 * @param to the last place that is not fed; below {@code from} where there is none
 * @param before the feed before it; -1 for none
 * @param after the feed after it; -1 for none
 */
record Stretch(int from, int to, int before, int after) {

  /**
   * The stretches of a line, from its start.
   *
   * @param leds the last place
   * @param feeds sorted, at least one, each 0 to {@code leds}
   */
  static List<Stretch> of(int leds, List<Integer> feeds) {
    List<Stretch> all = new ArrayList<>();
    int before = -1;
    for (int feed : feeds) {
      all.add(new Stretch(Math.max(before + 1, 1), feed - 1, before, feed));
      before = feed;
    }
    all.add(new Stretch(Math.max(before + 1, 1), leds, before, -1));
    return all;
  }

  /** See above; in pieces of line, or without a unit where there is no feed before. */
  double near(int place) {
    return before < 0 ? 1 : place - before;
  }

  /** See above; in pieces of line where there is no feed before, otherwise without a unit. */
  double far(int place) {
    if (after < 0) {
      return 1;
    }
    return before < 0 ? after - place : (double) (after - place) / (after - before);
  }

  /** Which part of a current drawn at a place comes from the feed before. */
  double fromBefore(int place) {
    return before < 0 ? 0 : far(place);
  }

  /** Which part of a current drawn at a place comes from the feed after. */
  double fromAfter(int place) {
    return 1 - fromBefore(place);
  }
}
