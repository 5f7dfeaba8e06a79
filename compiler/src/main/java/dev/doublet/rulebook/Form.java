package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;

/**
 * How a signal is built to be read.
 *
 * @param name as patterns and layouts call it
 * @param mount how the heads stand
 * @param places the names of the heads' places, top to bottom, at least one
 * @param usuallyDark those that patterns may leave unsaid, which then are dark; never all
 * @param withoutStop true when signals of this form are never meant to show the most restrictive
 *     aspect of the book (a distant signal, for one)
 * @param span where it is declared
 */
public record Form(
    String name,
    Mount mount,
    List<String> places,
    List<String> usuallyDark,
    boolean withoutStop,
    Span span) {

  /** Copies the lists. */
  public Form {
    places = List.copyOf(places);
    usuallyDark = List.copyOf(usuallyDark);
  }

  /** A form of which every head is said in every pattern. */
  public Form(String name, Mount mount, List<String> places, boolean withoutStop, Span span) {
    this(name, mount, places, List.of(), withoutStop, span);
  }

  /** True when so many displays are one for every head, or for every head not usually dark. */
  boolean takes(int displays) {
    return displays == places.size() || displays == places.size() - usuallyDark.size();
  }

  /**
   * What every head may show, where heads that are usually dark may be left unsaid.
   *
   * @param said as many as the form takes
   * @param span where that is written
   */
  List<Choice> everyHead(List<Choice> said, Span span) {
    if (said.size() == places.size()) {
      return said;
    }
    List<Choice> every = new ArrayList<>();
    Iterator<Choice> next = said.iterator();
    for (String place : places) {
      every.add(
          usuallyDark.contains(place) ? new Choice(List.of(Display.DARK), span) : next.next());
    }
    return every;
  }
}
