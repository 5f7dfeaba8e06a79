package dev.doublet.power;

import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.State;
import dev.doublet.rulebook.Display;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * What LEDs light up on the way from one picture of a unit to another, where a firmware shows
 * fades. An LED whose vane swings shows the old colour, then the middle one, then the new; one that
 * switches is at the new at once; a filament fades. So an LED of the old picture and one of the new
 * can be lit together, and a middle colour that is in neither.
 *
 * <p>While filaments fade, the old light and the new one together are never more than one whole
 * light, so that what they draw is never more than before all of them began or after all have
 * ended; how far they are when a vane moves depends on a sketch's time of swing, and each is
 * counted. A filament that keeps its colour but changes its rhythm is in the new one at once while
 * the old one still glows: until then it counts as steady.
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
    if (changesAsOne(glows) && !keepsGlowing(kind)) {
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

  /** True when some filament can go from one rhythm of a colour to another, or to steady. */
  private static boolean keepsGlowing(Kind kind) {
    return IntStream.range(0, kind.glows().size())
        .filter(led -> kind.glows().get(led).filament())
        .anyMatch(
            led -> {
              List<Display> shown = kind.states().stream().map(s -> s.lit().get(led)).toList();
              return shown.stream().distinct().count()
                  > shown.stream().map(Display::look).distinct().count();
            });
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
        picture.add(new Display(swung(was.look(), now.look(), glow.middle(), third), now.rhythm()));
      } else if (glow.filament() && faded == from) {
        boolean stays = was.look().equals(now.look()) && !was.equals(now);
        picture.add(stays ? Display.steady(was.look()) : was);
      } else {
        picture.add(now);
      }
    }
    return picture;
  }

  /** The colour before a lamp whose vane swings. */
  private static String swung(String was, String now, String middle, Third third) {
    boolean passes = !was.equals(now) && !was.equals(middle) && !now.equals(middle);
    return switch (third) {
      case BEFORE -> was;
      case MIDDLE -> passes ? middle : now;
      case AFTER -> now;
    };
  }
}
