package dev.doublet.failure;

import dev.doublet.colour.Channel;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.IntPredicate;

/**
 * How one head of a signal stands.
 *
 * @param display what it is to show, in the rhythm that it still has
 * @param makeOrNull its make, from when a lamp of it has failed
 * @param lights what its lamps still shine, from when one has failed
 * @param glimpse what a crew makes out of it
 */
record Head(Display display, HeadType makeOrNull, List<Light> lights, Glimpse glimpse) {

  /** Copies the list. */
  Head {
    lights = List.copyOf(lights);
  }

  /** A head that shows what it should. */
  static Head whole(Display display) {
    return new Head(display, null, List.of(), Glimpse.of(display));
  }

  /** True for an arm of which no more than the lamp has failed. */
  boolean isArmWithFailedLamp() {
    return makeOrNull != null && makeOrNull.isArm();
  }

  private static Head failed(Display display, HeadType make, List<Light> lights) {
    List<Light> known = lights.stream().filter(Light::isKnown).toList();
    int strange = lights.size() - known.size();
    List<Lit> lit = known.stream().map(l -> new Lit(l.lamp(), l.shines())).toList();
    List<String> rhythms = known.stream().map(l -> l.rhythm(display)).toList();
    return new Head(display, make, lights, Glimpse.of(make, lit, rhythms, strange));
  }

  /** The same when some lamps, by their places in it, are dark. */
  Head dark(HeadType make, IntPredicate lamps) {
    List<Light> before = lights(make);
    List<Light> left = before.stream().filter(l -> !lamps.test(l.lamp())).toList();
    return left.size() == before.size() ? this : failed(display, make, left);
  }

  /** The same when a die of one lamp is dead; a lamp that does not shine stays as it is. */
  Head dull(HeadType make, int lamp, Channel die, Dies dies) {
    List<Light> before = lights(make);
    List<Light> left = new ArrayList<>();
    for (Light light : before) {
      if (light.lamp() == lamp) {
        light.without(die, dies).ifPresent(left::add);
      } else {
        left.add(light);
      }
    }
    return left.equals(before) ? this : failed(display, make, left);
  }

  /** The same when one lamp is lit that should be dark; one that is lit anyway stays as it is. */
  Head lit(HeadType make, int lamp, String colour) {
    return with(make, new Light(lamp, colour, "", Set.of(), colour, true));
  }

  /** The same when the light of one lamp is coloured otherwise; a dark one stays dark. */
  Head coloured(HeadType make, int lamp, String colour) {
    List<Light> before = lights(make);
    List<Light> after =
        before.stream()
            .map(
                l ->
                    l.lamp() == lamp
                        ? new Light(lamp, colour, l.flashes(), l.dead(), colour, l.stuck())
                        : l)
            .toList();
    return after.equals(before) ? this : failed(display, make, after);
  }

  /**
   * The same when a die that stays lit makes one lamp shine otherwise. What flashes then changes
   * between two lights, and is neither of them.
   *
   * @param shines what it is taken for when it is steady; empty for no colour of the book
   */
  Head mixed(HeadType make, int lamp, String shines) {
    List<Light> before = lights(make);
    if (before.stream().noneMatch(l -> l.lamp() == lamp)) {
      return with(make, new Light(lamp, Display.DARK.look(), "", Set.of(), shines, true));
    }
    List<Light> after = new ArrayList<>();
    for (Light light : before) {
      if (light.lamp() == lamp) {
        String seen = light.rhythm(display).isEmpty() ? shines : "";
        after.add(new Light(lamp, light.colour(), "", Set.of(), seen, true));
      } else {
        after.add(light);
      }
    }
    return failed(display, make, after);
  }

  private Head with(HeadType make, Light more) {
    List<Light> lit = new ArrayList<>(lights(make));
    if (lit.stream().anyMatch(l -> l.lamp() == more.lamp())) {
      return this;
    }
    lit.add(more);
    lit.sort(Comparator.comparingInt(Light::lamp));
    return failed(display, make, lit);
  }

  /** The same when its flasher is stuck on or off; a head that is steady stays as it is. */
  Head stuck(boolean on) {
    if (display.rhythm().isEmpty()) {
      return this;
    }
    Display steady = on ? Display.steady(display.look()) : Display.DARK;
    return on && makeOrNull != null ? failed(steady, makeOrNull, lights) : whole(steady);
  }

  /**
   * The same when the flasher of those lamps is stuck on or off that have a rhythm of their own.
   */
  Head stuck(HeadType make, String rhythm, boolean on) {
    List<Light> before = lights(make);
    List<Light> after = new ArrayList<>();
    for (Light light : before) {
      if (!light.flashes().equals(rhythm)) {
        after.add(light);
      } else if (on) {
        after.add(
            new Light(
                light.lamp(), light.colour(), "", light.dead(), light.shines(), light.stuck()));
      }
    }
    return after.equals(before) ? this : failed(display, make, after);
  }

  private List<Light> lights(HeadType make) {
    if (makeOrNull != null) {
      return lights;
    }
    return make.lights(display.look()).orElseThrow().stream()
        .map(l -> new Light(l.lamp(), l.colour(), l.rhythm(), Set.of(), l.colour(), false))
        .toList();
  }

  /**
   * One lamp that still shines.
   *
   * @param lamp its place in the head
   * @param colour what it is to shine
   * @param flashes its own rhythm; empty when it has that of its head
   * @param dead the dies of it that are dead
   * @param shines what it is taken for; empty for no colour of the book
   * @param stuck true when it is lit whatever the head is to show, and so is steady
   */
  record Light(
      int lamp, String colour, String flashes, Set<Channel> dead, String shines, boolean stuck) {

    /** Copies the set. */
    Light {
      dead = Set.copyOf(dead);
    }

    /** True when it shines in a colour of the book. */
    boolean isKnown() {
      return !shines.isEmpty();
    }

    /** Its rhythm while its head shows something. */
    String rhythm(Display display) {
      return stuck ? "" : flashes.isEmpty() ? display.rhythm() : flashes;
    }

    /** The same with one more die dead; empty when it is dark then. */
    Optional<Light> without(Channel die, Dies dies) {
      Set<Channel> more = EnumSet.of(die);
      more.addAll(dead);
      String left = dies.left(colour, more);
      return left.equals(Display.DARK.look())
          ? Optional.empty()
          : Optional.of(new Light(lamp, colour, flashes, more, left, stuck));
    }
  }
}
