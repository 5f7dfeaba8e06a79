package dev.doublet.layout;

import java.util.List;

/**
 * How much less bright than its chain a unit is.
 *
 * @param percent of what the chain has, 1 to 100
 * @param lamps percent of that for each lamp in chain order, 1 to 100; empty when all have the
 *     whole of it
 */
public record Dimming(int percent, List<Integer> lamps) {
  /** As bright as the chain. */
  public static final Dimming NONE = new Dimming(100, List.of());

  /** Copies the list. */
  public Dimming {
    lamps = List.copyOf(lamps);
  }

  /**
   * That of a unit whose lamps have so many percent of what it has.
   *
   * @param lamps one for each, in chain order
   */
  public static Dimming of(int percent, List<Integer> lamps) {
    boolean alike = lamps.stream().distinct().count() <= 1;
    int all = alike && !lamps.isEmpty() ? lamps.get(0) : 100;
    if (alike && percent == 100) {
      return new Dimming(all, List.of());
    }
    return new Dimming(percent, alike && all == 100 ? List.of() : lamps);
  }

  /** Percent of what the unit has that a lamp has. */
  public int lamp(int lamp) {
    return lamps.isEmpty() ? 100 : lamps.get(lamp);
  }

  /** True when nothing is less bright than the chain. */
  public boolean isNone() {
    return equals(NONE);
  }
}
