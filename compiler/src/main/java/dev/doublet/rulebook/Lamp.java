package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.List;

/**
 * One lamp of a head: one LED on the chain.
 *
 * @param name its place in the head
 * @param colours what it can show, at least one
 * @param span where it is declared
 */
public record Lamp(String name, List<Colour> colours, Span span) {

  /** Copies the list. */
  public Lamp {
    colours = List.copyOf(colours);
  }

  /** True when this lamp can show a colour of that name. */
  public boolean shows(String colour) {
    for (Colour own : colours) {
      if (own.name().equals(colour)) {
        return true;
      }
    }
    return false;
  }
}
