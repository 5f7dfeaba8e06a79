package dev.doublet.failure;

import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.IntStream;

/**
 * What a crew makes out of one head.
 *
 * @param display what the head shows, as far as it can be named; dark otherwise
 * @param named true when the head shows just that display
 * @param maybe the displays that what is lit may be part of; empty when nothing lit can be named
 * @param remains what is lit when it cannot be named
 * @param byNight true for a light beside arms by night: all that it may be look just so
 */
public record Glimpse(
    Display display, boolean named, List<Display> maybe, Remains remains, boolean byNight) {

  /**
   * Lights of a head that together are no display.
   *
   * @param lamps names of the lamps that shine in each colour of the book, in the order of the head
   * @param strange true when a light of no known colour is among them
   */
  public record Remains(Map<Display, List<String>> lamps, boolean strange) {
    private static final Remains NONE = new Remains(Map.of(), false);

    /** Copies the map. */
    public Remains {
      lamps = Collections.unmodifiableMap(new LinkedHashMap<>(lamps));
    }
  }

  /** Copies the list. */
  public Glimpse {
    maybe = List.copyOf(maybe);
  }

  /** Cheap, as glimpses are looked up for every pair of faults. */
  @Override
  public int hashCode() {
    return 31 * display.hashCode() + remains.lamps().hashCode();
  }

  /** A head that shows what it should. */
  public static Glimpse of(Display display) {
    boolean dark = display.equals(Display.DARK);
    return new Glimpse(display, true, dark ? List.of() : List.of(display), Remains.NONE, false);
  }

  /** A light of a colour by night, which may be each of some displays. */
  static Glimpse byNight(Display colour, List<Display> alike) {
    return new Glimpse(colour, true, alike, Remains.NONE, true);
  }

  /**
   * What some lit lamps look like.
   *
   * @param type the head's make
   * @param lit the lamps that still shine in a colour of the book
   * @param rhythms the rhythm of each of them; empty for a steady one
   * @param strange how many shine in no colour of the book
   */
  public static Glimpse of(HeadType type, List<Lit> lit, List<String> rhythms, int strange) {
    if (lit.isEmpty()) {
      return strange == 0
          ? of(Display.DARK)
          : new Glimpse(Display.DARK, false, List.of(), new Remains(Map.of(), true), false);
    }
    Remains remains = remains(type, lit, rhythms, strange);
    String rhythm = rhythms.get(0);
    boolean alike = rhythms.stream().allMatch(rhythm::equals);
    List<Display> maybe = new ArrayList<>();
    for (String look : looks(type, lit)) {
      List<Lit> whole = type.lights(look).orElse(List.of());
      boolean byItself = whole.stream().anyMatch(one -> !one.rhythm().isEmpty());
      if ((byItself || alike)
          && new HashSet<>(whole).containsAll(byItself ? own(lit, rhythms) : lit)) {
        Display display = new Display(look, byItself ? "" : rhythm);
        maybe.add(display);
        if (strange == 0 && whole.size() == lit.size()) {
          return of(display);
        }
      }
    }
    if (strange == 0 && lit.size() == 1) {
      // A lone light is read by its colour, wherever in the head it stands.
      Display lone = new Display(lit.get(0).colour(), rhythm);
      maybe.remove(lone);
      maybe.add(0, lone);
      return new Glimpse(lone, true, maybe, Remains.NONE, false);
    }
    return new Glimpse(Display.DARK, false, maybe, remains, false);
  }

  /**
   * True when lights of known colours are no display and part of none: a head that is neither dark
   * nor can be read.
   */
  boolean isContrary() {
    return !named && maybe.isEmpty() && !remains.lamps().isEmpty();
  }

  /** True when something lit can be read. */
  boolean isLit() {
    return !maybe.isEmpty();
  }

  /** The displays that look just so. */
  List<Display> shows() {
    return byNight ? maybe : List.of(display);
  }

  private static List<Lit> own(List<Lit> lit, List<String> rhythms) {
    return IntStream.range(0, lit.size())
        .mapToObj(i -> new Lit(lit.get(i).lamp(), lit.get(i).colour(), rhythms.get(i)))
        .toList();
  }

  /** What some lit lamps may be part of, by name: figures, and the colours that they shine in. */
  private static SortedSet<String> looks(HeadType type, List<Lit> lit) {
    SortedSet<String> looks = new TreeSet<>();
    type.figures().forEach(f -> looks.add(f.name()));
    lit.forEach(l -> looks.add(l.colour()));
    return looks;
  }

  private static Remains remains(HeadType type, List<Lit> lit, List<String> rhythms, int strange) {
    Map<Display, List<String>> lamps = new LinkedHashMap<>();
    for (int i = 0; i < lit.size(); i++) {
      lamps
          .computeIfAbsent(new Display(lit.get(i).colour(), rhythms.get(i)), d -> new ArrayList<>())
          .add(type.lamps().get(lit.get(i).lamp()).name());
    }
    return new Remains(lamps, strange > 0);
  }
}
