package dev.doublet.power;

/**
 * A part of a {@link Line} that no other part touches: between two feeds without loss, or from one
 * to an end.
 *
 * <p>A current drawn at one LED lowers the voltage at another by the current times a resistance
 * that both share, and the two may be swapped (reciprocity). For LEDs <i>p</i> not beyond <i>q</i>
 * that resistance is {@code near(p) * far(q)}: Kirchhoff's current law touches each place and its
 * neighbours only, so that one factor is its solution from the start on, and the other from the
 * end. With one feed it is the way to it that both have in common; between feeds at <i>a</i> and
 * <i>b</i> it is (<i>p</i> - <i>a</i>)(<i>b</i> - <i>q</i>) / (<i>b</i> - <i>a</i>). That it is a
 * product makes {@link Flow} fast.
 *
 * @param from its first LED, from 1
 * @param to its last LED; below {@code from} where there is none
 * @param nears of each LED
 * @param fars of each LED
 */
record Stretch(int from, int to, double[] nears, double[] fars) {

  /** See above. */
  double near(int led) {
    return nears[led - from];
  }

  /** See above; both factors together in ohms. */
  double far(int led) {
    return fars[led - from];
  }
}
