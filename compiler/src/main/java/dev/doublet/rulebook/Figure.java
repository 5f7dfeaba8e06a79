package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.List;

/**
 * Several lamps of one head lit together: two yellows, a row, a diagonal.
 *
 * @param name as patterns call it
 * @param lit the lamps, in the order of the head
 * @param span where it is declared
 */
public record Figure(String name, List<Lit> lit, Span span) {

  /** Copies the list. */
  public Figure {
    lit = List.copyOf(lit);
  }

  /** True when some of its lamps have rhythms of their own, so that it can be put in no other. */
  public boolean flashesByItself() {
    return lit.stream().anyMatch(one -> !one.rhythm().isEmpty());
  }
}
