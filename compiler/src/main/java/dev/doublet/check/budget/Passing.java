package dev.doublet.check.budget;

import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.State;
import dev.doublet.rulebook.Display;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * What LEDs light up on the way from one picture of a unit to another, where a firmware shows
 * fades. An LED whose vane swings shows the old colour, then the middle one, then the new; one that
 * switches is at the new at once; a filament fades. So an LED of the old picture and one of the new
 * can be lit together, and a middle colour that is in neither.
 *
 * <p>While filaments fade, the old light and the new one together are never more than one whole
 * light, so that what they draw is never more than before all of them began or after all have
 * ended; how far they are when a vane moves depends on a sketch's time of swing, and each is
 * counted.
 */
final class Passing {
  private Passing() {}

  /**
   * Pictures on the way, one display for each LED; none where all LEDs change in one way.
   *
   * @param part what lights up: a vane passes nothing that it has no drive for
   */
  static Set<List<Display>> of(Kind kind, Part part) {
    Set<List<Display>> passed = new LinkedHashSet<>();
    List<Glow> glows = kind.glowsOn(part);
    if (changesAsOne(glows)) {
      return passed;
    }
    for (State from : kind.states()) {
      for (State to : kind.states()) {
        if (from != to) {
          for (Third third : Third.values()) {
            passed.add(picture(glows, from, to, third, from));
            passed.add(picture(glows, from, to, third, to));
          }
        }
      }
    }
    return passed;
  }

  /** A third of a swing. */
  private enum Third {
    BEFORE,
    MIDDLE,
    AFTER
  }

  private static boolean changesAsOne(List<Glow> glows) {
    return glows.stream().allMatch(g -> g.middle().isEmpty())
        && glows.stream().distinct().count() <= 1;
  }

  /**
   * One picture on the way.
   *
   * @param faded the picture that filaments show: of the two the one before or the one after
   */
  private static List<Display> picture(
      List<Glow> glows, State from, State to, Third third, State faded) {
    List<Display> picture = new ArrayList<>();
    for (int led = 0; led < glows.size(); led++) {
      Glow glow = glows.get(led);
      Display was = from.lit().get(led);
      Display now = to.lit().get(led);
      boolean lit = !was.equals(Display.DARK) && !now.equals(Display.DARK);
      if (!glow.middle().isEmpty() && lit) {
        picture.add(swung(was, now, Display.steady(glow.middle()), third));
      } else {
        picture.add(glow.filament() ? faded.lit().get(led) : now);
      }
    }
    return picture;
  }

  private static Display swung(Display was, Display now, Display middle, Third third) {
    boolean passes =
        !was.look().equals(now.look())
            && !was.look().equals(middle.look())
            && !now.look().equals(middle.look());
    return switch (third) {
      case BEFORE -> was;
      case MIDDLE -> passes ? middle : now;
      case AFTER -> now;
    };
  }
}
