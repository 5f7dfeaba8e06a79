package dev.doublet.failure;

import dev.doublet.failure.Site.AspectPicture;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import dev.doublet.rulebook.Lit;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * What stands at one place of a site, and all that it shows: what is stuck shows what it showed
 * before.
 *
 * @param makes the makes of head that may stand there, since they can show each aspect in some way
 * @param unable for every other make, the aspects that it cannot show in any way, by their families
 * @param looks the colours and figures that it shows at one time or another
 */
record Place(Set<HeadType> makes, Map<HeadType, Set<String>> unable, Set<String> looks) {
  private static final int MOST_COLOURS = 40;

  /** Copies the sets. */
  Place {
    makes = new LinkedHashSet<>(makes);
    unable = new LinkedHashMap<>(unable);
    looks = new TreeSet<>(looks);
  }

  /** The place of each head of a signal whose heads are known. */
  static List<Place> of(List<HeadType> heads, List<AspectPicture> shown) {
    List<Place> places = new ArrayList<>();
    for (int head = 0; head < heads.size(); head++) {
      places.add(new Place(Set.of(heads.get(head)), Map.of(), looks(head, shown)));
    }
    return places;
  }

  /** The same on a form of a rulebook, where any head of the book may stand that can. */
  static List<Place> of(Rulebook book, Span form, List<AspectPicture> shown) {
    List<Place> places = new ArrayList<>();
    for (int head = 0; head < shown.get(0).picture().size(); head++) {
      Set<String> looks = looks(head, shown);
      Set<HeadType> makes = new LinkedHashSet<>();
      Map<HeadType, Set<String>> unable = new LinkedHashMap<>();
      Map<String, Set<String>> ways = ways(head, shown);
      for (HeadType make : book.heads()) {
        Set<String> not = unable(make, ways);
        if (not.isEmpty()) {
          makes.add(make);
        } else {
          unable.put(make, not);
        }
      }
      if (book.heads().isEmpty()) {
        List<Colour> colours = looks.stream().map(look -> new Colour(look, look, form)).toList();
        makes.add(new HeadType("plain", List.of(new Lamp("main", colours, form)), List.of(), form));
      }
      places.add(new Place(makes, unable, looks));
    }
    return places;
  }

  /**
   * What each head of a form shows, with some plates, where a pattern takes anything: dark, or the
   * safe side of each arm that may stand there.
   */
  static List<List<Display>> rest(Rulebook book, PatternIndex patterns, Collection<String> plates) {
    List<List<Display>> rest = new ArrayList<>();
    boolean arms = book.heads().stream().anyMatch(HeadType::isArm);
    for (int head = 0; head < patterns.heads(); head++) {
      Set<Display> here = new LinkedHashSet<>();
      if (arms && patterns.hasAny(head)) {
        Map<String, Set<String>> ways = ways(head, patterns, plates);
        book.heads().stream()
            .filter(make -> unable(make, ways).isEmpty())
            .forEach(make -> here.add(make.safest()));
      }
      rest.add(here.isEmpty() ? List.of(Display.DARK) : List.copyOf(here));
    }
    return rest;
  }

  /** What a head shows for each aspect that does not take anything there. */
  private static Map<String, Set<String>> ways(
      int head, PatternIndex patterns, Collection<String> plates) {
    Map<String, Set<String>> ways = new LinkedHashMap<>();
    Set<String> anything = new HashSet<>();
    for (Reads by : patterns.patterns()) {
      if (plates.containsAll(by.pattern().plates())) {
        Choice choice = by.pattern().choices().get(head);
        Set<String> looks = ways.computeIfAbsent(by.aspect().family(), a -> new HashSet<>());
        choice.displays().forEach(d -> looks.add(d.look()));
        if (choice.isAny()) {
          anything.add(by.aspect().family());
        }
      }
    }
    ways.keySet().removeAll(anything);
    return ways;
  }

  private static Set<String> looks(int head, List<AspectPicture> shown) {
    Set<String> looks = new TreeSet<>();
    shown.forEach(s -> looks.add(s.picture().get(head).look()));
    looks.remove(Display.DARK.look());
    return looks;
  }

  private static Map<String, Set<String>> ways(int head, List<AspectPicture> shown) {
    Map<String, Set<String>> ways = new LinkedHashMap<>();
    for (AspectPicture one : shown) {
      ways.computeIfAbsent(one.aspect().family(), a -> new HashSet<>())
          .add(one.picture().get(head).look());
    }
    return ways;
  }

  private static Set<String> unable(HeadType make, Map<String, Set<String>> ways) {
    Map<String, Boolean> able = new HashMap<>();
    Set<String> unable = new HashSet<>();
    ways.forEach(
        (family, looks) -> {
          if (looks.stream()
              .noneMatch(look -> able.computeIfAbsent(look, l -> make.lights(l).isPresent()))) {
            unable.add(family);
          }
        });
    return unable;
  }

  /**
   * True when a place shows nothing more, were some aspects shown by another picture.
   *
   * @param look what that shows here
   */
  boolean shows(String look) {
    return look.equals(Display.DARK.look()) || looks.contains(look);
  }

  /** True when no other make can stand there as long as only some aspects are shown otherwise. */
  boolean keepsOut(Set<String> changed) {
    return unable.values().stream().noneMatch(changed::containsAll);
  }

  /** True when no make of head may stand at another that may not here. */
  boolean takesAllOf(Place other) {
    return makes.containsAll(other.makes);
  }

  /**
   * The colours that each lamp of a make shows here at one time or another, by name; of more than
   * {@value #MOST_COLOURS}, which no lamp that is built shows, the first.
   */
  List<Set<String>> colours(HeadType make) {
    List<Set<String>> colours = new ArrayList<>();
    make.lamps().forEach(lamp -> colours.add(new TreeSet<>()));
    for (String look : looks) {
      if (colours.stream().allMatch(ofLamp -> ofLamp.size() == MOST_COLOURS)) {
        break;
      }
      for (Lit lit : make.lights(look).orElse(List.of())) {
        Set<String> ofLamp = colours.get(lit.lamp());
        if (ofLamp.size() < MOST_COLOURS) {
          ofLamp.add(lit.colour());
        }
      }
    }
    return colours;
  }
}
