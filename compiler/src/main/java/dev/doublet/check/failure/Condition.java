package dev.doublet.check.failure;

import dev.doublet.colour.Channel;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.IntPredicate;
import java.util.function.UnaryOperator;

/**
 * How a signal stands: what its heads still shine, and the plates that are still there. Each fault
 * makes another condition of it, so that faults add up.
 *
 * @param heads top to bottom
 * @param plates sorted
 */
record Condition(List<Head> heads, List<String> plates) {

  /** Copies the lists. */
  Condition {
    heads = List.copyOf(heads);
    plates = List.copyOf(plates);
  }

  /** A signal on which nothing has failed. */
  static Condition of(List<Display> picture, List<String> plates) {
    return new Condition(picture.stream().map(Head::whole).toList(), plates);
  }

  /** The same with one head changed. */
  Condition with(int head, UnaryOperator<Head> change) {
    List<Head> changed = new ArrayList<>(heads);
    changed.set(head, change.apply(heads.get(head)));
    return new Condition(changed, plates);
  }

  /** The same without a plate. */
  Condition without(String plate) {
    return new Condition(heads, plates.stream().filter(p -> !p.equals(plate)).toList());
  }

  /**
   * One head.
   *
   * @param display what it is to show, in the rhythm that it still has
   * @param makeOrNull its make, from when a lamp of it has failed
   * @param lights what its lamps still shine, from when one has failed
   */
  record Head(Display display, HeadType makeOrNull, List<Light> lights) {

    /** Copies the list. */
    Head {
      lights = List.copyOf(lights);
    }

    /** A head that shows what it should. */
    static Head whole(Display display) {
      return new Head(display, null, List.of());
    }

    /** The same when some lamps, by their places in it, are dark. */
    Head dark(HeadType make, IntPredicate lamps) {
      List<Light> before = lights(make);
      List<Light> left = before.stream().filter(l -> !lamps.test(l.lamp())).toList();
      return left.size() == before.size() ? this : new Head(display, make, left);
    }

    /** The same when a die of one lamp is dead; a lamp that does not shine stays as it is. */
    Head dull(HeadType make, int lamp, Channel die, Dies dies) {
      List<Light> left = new ArrayList<>();
      for (Light light : lights(make)) {
        if (light.lamp() != lamp) {
          left.add(light);
          continue;
        }
        Set<Channel> dead = light.with(die);
        String shines = dies.left(light.colour(), dead);
        if (!shines.equals(Display.DARK.look())) {
          left.add(new Light(lamp, light.colour(), dead, shines));
        }
      }
      return left.equals(lights(make)) ? this : new Head(display, make, left);
    }

    /** The same when its flasher is stuck on or off; a head that is steady stays as it is. */
    Head stuck(boolean on) {
      if (display.rhythm().isEmpty()) {
        return this;
      }
      return on
          ? new Head(Display.steady(display.look()), makeOrNull, lights)
          : whole(Display.DARK);
    }

    /** What a crew makes out of it. */
    Glimpse glimpse() {
      if (makeOrNull == null) {
        return Glimpse.of(display);
      }
      List<Lit> lit =
          lights.stream()
              .filter(l -> !l.isStrange())
              .map(l -> new Lit(l.lamp(), l.shines()))
              .toList();
      return Glimpse.of(makeOrNull, lit, lights.size() - lit.size(), display.rhythm());
    }

    private List<Light> lights(HeadType make) {
      if (makeOrNull != null) {
        return lights;
      }
      return make.lights(display.look()).orElseThrow().stream()
          .map(l -> new Light(l.lamp(), l.colour(), Set.of(), l.colour()))
          .toList();
    }
  }

  /**
   * One lamp that still shines.
   *
   * @param lamp its place in the head
   * @param colour what it is to shine
   * @param dead the dies of it that are dead
   * @param shines what it is taken for; empty for no colour of the book
   */
  record Light(int lamp, String colour, Set<Channel> dead, String shines) {

    /** Copies the set. */
    Light {
      dead = Set.copyOf(dead);
    }

    /** True when it shines in no colour of the book. */
    boolean isStrange() {
      return shines.isEmpty();
    }

    /** Its dead dies and one more. */
    Set<Channel> with(Channel die) {
      Set<Channel> more = EnumSet.of(die);
      more.addAll(dead);
      return more;
    }
  }
}
