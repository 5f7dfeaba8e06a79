package dev.doublet.layout;

import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Mount;
import java.util.List;
import java.util.stream.IntStream;

/**
 * How high the heads of a signal stand at full size.
 *
 * @param metres from the rail to the middle of each head, top to bottom
 * @param said for how many heads from the top the layout says it; the rest is common practice
 */
public record Mast(List<Double> metres, int said) {
  private static final double FOOT = 0.3048;

  /*
   * Common practice of US railroads, all of it from memory: the lowest head of a high signal 14 ft above
   * the rail, on a bracket 20 ft, others 6 ft apart; the lowest of a dwarf 1 ft 6 in, others 1 ft apart.
   * No two railroads agree, which is why a layout may say its own.
   */
  private static final double LOWEST = 14 * FOOT;
  private static final double LOWEST_ON_BRACKET = 20 * FOOT;
  private static final double LOWEST_ON_DWARF = 1.5 * FOOT;
  private static final double APART = 6 * FOOT;
  private static final double APART_ON_DWARF = FOOT;

  /** Copies the list. */
  public Mast {
    metres = List.copyOf(metres);
  }

  /** What is common practice for a form (from memory). */
  public static Mast usual(Form form) {
    double lowest =
        switch (form.mount()) {
          case IN_LINE, STAGGERED -> LOWEST;
          case BRACKET -> LOWEST_ON_BRACKET;
          case DWARF -> LOWEST_ON_DWARF;
        };
    double top = lowest + (form.places().size() - 1) * apart(form);
    return new Mast(hung(form, top), 0);
  }

  /** A mast whose top head is so high, the others below it as far apart as is usual. */
  public static Mast under(Form form, double top) {
    return new Mast(hung(form, top), 1);
  }

  /** True when the layout says how high a head stands. */
  public boolean says(int place) {
    return place < said;
  }

  private static List<Double> hung(Form form, double top) {
    return IntStream.range(0, form.places().size()).mapToObj(i -> top - i * apart(form)).toList();
  }

  private static double apart(Form form) {
    return form.mount() == Mount.DWARF ? APART_ON_DWARF : APART;
  }
}
