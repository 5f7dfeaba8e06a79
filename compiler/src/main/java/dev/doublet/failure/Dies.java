package dev.doublet.failure;

import dev.doublet.colour.Channel;
import dev.doublet.colour.Chromaticity;
import dev.doublet.colour.Drive;
import dev.doublet.colour.LedFamily;
import dev.doublet.colour.RegionSet;
import dev.doublet.colour.Seeing;
import dev.doublet.layout.Part;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;

/**
 * What is left of each colour of an LED when some of its dies are dead, and what becomes of it when
 * one is stuck lit. The light is named by where it lies in the CIE 1931 diagram: by a colour of the
 * book that it can hardly be told from, or by the colour of a published region that it lies in.
 */
public final class Dies {
  private final Map<String, Map<Set<Channel>, String>> left = new TreeMap<>();
  private final Map<String, List<Stuck>> stuck = new TreeMap<>();
  private final String name;
  private final boolean supposed;

  private final Map<LitDie, Optional<Stuck>> mixed = new ConcurrentHashMap<>();

  /** What one die makes of a colour, or of {@code dark}, that is lit at some level. */
  private Mixing mixing = (colour, die, level) -> Optional.empty();

  /** What the light of an LED is taken for. */
  @FunctionalInterface
  private interface Mixing {
    Optional<Stuck> of(String colour, Channel die, int level);
  }

  /**
   * A die that is lit more than it should be.
   *
   * @param die which
   * @param shines what the light is then taken for: a colour of the book, or empty for none
   */
  public record Stuck(Channel die, String shines) {}

  private Dies(String name, boolean supposed) {
    this.name = name;
    this.supposed = supposed;
  }

  /**
   * Works out what each colour of a part is left with.
   *
   * @param most how many dies of one LED may be dead: 1 or 2
   */
  public static Dies of(Part part, Rulebook book, int most) {
    return of(part.name(), part.family(), part.drive(), book, most);
  }

  /** The same of an LED of some family, driven in some way for each colour, by any name. */
  public static Dies of(
      String name, LedFamily family, Map<String, List<Integer>> drives, Rulebook book, int most) {
    Map<String, Chromaticity> own = new TreeMap<>();
    for (Colour colour : book.colours()) {
      List<Integer> drive = drives.get(colour.name());
      if (drive != null && drive.stream().anyMatch(level -> level > 0)) {
        own.put(colour.name(), light(family, drive));
      }
    }
    Dies dies = new Dies(name, false);
    dies.mixing =
        (colour, die, level) -> {
          List<Integer> drive = drives.get(colour);
          List<Integer> lit =
              new ArrayList<>(drive == null ? Collections.nCopies(family.dies().size(), 0) : drive);
          if (die.ordinal() >= lit.size() || lit.get(die.ordinal()) >= level) {
            return Optional.empty();
          }
          lit.set(die.ordinal(), level);
          return Optional.of(new Stuck(die, named(light(family, lit), own, book)))
              .filter(stuck -> !stuck.shines().equals(colour));
        };
    List<Integer> dark = Collections.nCopies(family.dies().size(), 0);
    dies.stuck.put(
        Display.DARK.look(), stuck(Display.DARK.look(), family, dark, drives, own, book));
    for (String colour : own.keySet()) {
      List<Integer> drive = drives.get(colour);
      dies.stuck.put(colour, stuck(colour, family, drive, drives, own, book));
      if (new Drive(drive).lit() > 1) {
        Map<Set<Channel>, String> losses = new LinkedHashMap<>();
        for (Set<Channel> dead : dead(drive, most)) {
          losses.put(dead, left(family, without(drive, dead), own, book));
        }
        dies.left.put(colour, losses);
      }
    }
    return dies;
  }

  /**
   * What each die makes of a light when it is lit fully, or as it is in another colour; none that
   * changes nothing.
   */
  private static List<Stuck> stuck(
      String colour,
      LedFamily family,
      List<Integer> drive,
      Map<String, List<Integer>> drives,
      Map<String, Chromaticity> own,
      Rulebook book) {
    Set<Stuck> all = new LinkedHashSet<>();
    for (int die = 0; die < drive.size(); die++) {
      TreeSet<Integer> levels = new TreeSet<>(Set.of(Drive.FULL));
      for (String other : own.keySet()) {
        levels.add(drives.get(other).get(die));
      }
      for (int level : levels.tailSet(drive.get(die), false)) {
        List<Integer> lit = new ArrayList<>(drive);
        lit.set(die, level);
        all.add(new Stuck(Channel.values()[die], named(light(family, lit), own, book)));
      }
    }
    return all.stream().filter(s -> !s.shines().equals(colour)).toList();
  }

  /**
   * LEDs of which nothing is known but what somebody might make: for each light that can be left, a
   * colour of the book or none, an LED that is left with it, or takes it on, whatever it shone.
   */
  static List<Dies> supposed(Rulebook book) {
    List<String> lights = new ArrayList<>(book.colours().stream().map(Colour::name).toList());
    lights.add("");
    List<Dies> all = new ArrayList<>();
    for (String light : lights) {
      Dies dies = new Dies("", true);
      dies.stuck.put(Display.DARK.look(), List.of(new Stuck(Channel.RED, light)));
      for (Colour colour : book.colours()) {
        if (!colour.name().equals(light)) {
          dies.left.put(colour.name(), Map.of(Set.of(Channel.RED), light));
          dies.stuck.put(colour.name(), List.of(new Stuck(Channel.RED, light)));
        }
      }
      all.add(dies);
    }
    return all;
  }

  /** True when the LEDs of one signal may be such and such. */
  boolean goesWith(Dies other) {
    return other == this || supposed && other.supposed;
  }

  /** What the kind of LED is called; empty for one that is only supposed. */
  public String name() {
    return name;
  }

  /** What each die that is lit and should not be makes of a colour, or of {@code dark}. */
  List<Stuck> stuck(String colour) {
    return stuck.getOrDefault(colour, List.of());
  }

  private record LitDie(String colour, Channel die, int level) {}

  /**
   * What a die that is stuck lit at one level, of 1 to 255, makes of a colour, or of {@code dark};
   * empty where that changes nothing that can be told.
   */
  public Optional<Stuck> stuckAt(String colour, Channel die, int level) {
    return mixed.computeIfAbsent(
        new LitDie(colour, die, level), asked -> mixing.of(colour, die, level));
  }

  /** The dies that a colour is mixed of; none when one die makes it alone. */
  List<Channel> mixing(String colour) {
    return left.getOrDefault(colour, Map.of()).keySet().stream()
        .filter(dead -> dead.size() == 1)
        .flatMap(Set::stream)
        .toList();
  }

  /**
   * What the light that is left is taken for when some of the dies that mix a colour are dead: a
   * colour of the book, {@code dark} when nothing is left, or empty for no colour of the book.
   */
  String left(String colour, Set<Channel> dead) {
    return left.get(colour).get(dead);
  }

  /** Each die that is lit, dead, and then each two. */
  private static List<Set<Channel>> dead(List<Integer> drive, int most) {
    List<Set<Channel>> dead = new ArrayList<>();
    List<Channel> lit =
        Arrays.stream(Channel.values())
            .filter(c -> c.ordinal() < drive.size() && drive.get(c.ordinal()) > 0)
            .toList();
    lit.forEach(die -> dead.add(Set.of(die)));
    for (Channel one : most > 1 ? lit : List.<Channel>of()) {
      lit.stream().filter(c -> c.compareTo(one) > 0).forEach(c -> dead.add(Set.of(one, c)));
    }
    return dead;
  }

  private static List<Integer> without(List<Integer> drive, Set<Channel> dead) {
    List<Integer> left = new ArrayList<>(drive);
    dead.forEach(die -> left.set(die.ordinal(), 0));
    return left;
  }

  private static String left(
      LedFamily family, List<Integer> drive, Map<String, Chromaticity> own, Rulebook book) {
    return new Drive(drive).lit() == 0
        ? Display.DARK.look()
        : named(light(family, drive), own, book);
  }

  private static String named(Chromaticity light, Map<String, Chromaticity> own, Rulebook book) {
    String nearest = "";
    double least = Double.POSITIVE_INFINITY;
    Map<String, Boolean> in = new HashMap<>();
    for (Colour colour : book.colours()) {
      Chromaticity known = own.get(colour.name());
      double far = known == null ? Double.MAX_VALUE : light.difference(known);
      if (far < least
          && (far < Seeing.APART
              || in.computeIfAbsent(
                  colour.published(), region -> RegionSet.anyTakes(light, region)))) {
        nearest = colour.name();
        least = far;
      }
    }
    return nearest;
  }

  private static Chromaticity light(LedFamily family, List<Integer> drive) {
    return family.light(new Drive(drive)).chromaticity();
  }
}
