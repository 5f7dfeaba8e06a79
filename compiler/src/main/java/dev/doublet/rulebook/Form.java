package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.List;

/**
 * How a signal is built to be read.
 *
 * @param name as patterns and layouts call it
 * @param mount how the heads stand
 * @param places the names of the heads' places, top to bottom, at least one
 * @param withoutStop true when signals of this form are never meant to show the most restrictive
 *     aspect of the book (a distant signal, for one)
 * @param span where it is declared
 */
public record Form(String name, Mount mount, List<String> places, boolean withoutStop, Span span) {

  /** Copies the list. */
  public Form {
    places = List.copyOf(places);
  }
}
