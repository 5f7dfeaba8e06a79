package dev.doublet.failure;

import dev.doublet.diagnostic.Words;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * What a crew makes out of one head.
 *
 * @param display what the head shows, as far as it can be named; dark otherwise
 * @param named true when the head shows just that display
 * @param maybe the displays that what is lit may be part of; empty when nothing lit can be named
 * @param words for people: "flashing yellow", "amber at north and centre"
 */
public record Glimpse(Display display, boolean named, List<Display> maybe, String words) {

  /** Copies the list. */
  public Glimpse {
    maybe = List.copyOf(maybe);
  }

  /** Cheap, as glimpses are looked up for every pair of faults. */
  @Override
  public int hashCode() {
    return words.hashCode();
  }

  /** A head that shows what it should. */
  public static Glimpse of(Display display) {
    boolean dark = display.equals(Display.DARK);
    return new Glimpse(display, true, dark ? List.of() : List.of(display), display.words());
  }

  /**
   * What some lit lamps look like.
   *
   * @param type the head's make
   * @param lit the lamps that still shine in a colour of the book
   * @param strange how many shine in no colour of the book
   * @param rhythm the rhythm of all of them, or empty
   */
  public static Glimpse of(HeadType type, List<Lit> lit, int strange, String rhythm) {
    if (lit.isEmpty()) {
      return strange == 0
          ? of(Display.DARK)
          : new Glimpse(Display.DARK, false, List.of(), "a light of no known colour");
    }
    List<Display> maybe = new ArrayList<>();
    for (String look : looks(type)) {
      List<Lit> whole = type.lights(look).orElse(List.of());
      if (whole.size() >= lit.size() && new HashSet<>(whole).containsAll(lit)) {
        maybe.add(new Display(look, rhythm));
        if (strange == 0 && whole.size() == lit.size()) {
          return of(new Display(look, rhythm));
        }
      }
    }
    if (strange == 0 && lit.size() == 1) {
      // A lone light is read by its colour, wherever in the head it stands.
      Display lone = new Display(lit.get(0).colour(), rhythm);
      maybe.remove(lone);
      maybe.add(0, lone);
      return new Glimpse(lone, true, maybe, lone.words());
    }
    return new Glimpse(Display.DARK, false, maybe, words(type, lit, strange, rhythm));
  }

  /** True when something lit can be read. */
  boolean isLit() {
    return !maybe.isEmpty();
  }

  /** Whole displays first by name, figures among them. */
  private static SortedSet<String> looks(HeadType type) {
    SortedSet<String> looks = new TreeSet<>();
    type.figures().forEach(f -> looks.add(f.name()));
    type.lamps().forEach(l -> l.colours().forEach(c -> looks.add(c.name())));
    return looks;
  }

  private static String words(HeadType type, List<Lit> lit, int strange, String rhythm) {
    Map<String, List<String>> places = new LinkedHashMap<>();
    for (Lit one : lit) {
      places
          .computeIfAbsent(one.colour(), c -> new ArrayList<>())
          .add(type.lamps().get(one.lamp()).name());
    }
    List<String> parts = new ArrayList<>();
    places.forEach(
        (colour, at) -> parts.add(new Display(colour, rhythm).words() + " at " + Words.list(at)));
    if (strange > 0) {
      parts.add("a light of no known colour");
    }
    return String.join(" with ", parts);
  }
}
