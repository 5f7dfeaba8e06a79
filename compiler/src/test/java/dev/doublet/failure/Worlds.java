package dev.doublet.failure;

import dev.doublet.rulebook.Movement;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Speed;
import java.util.ArrayList;
import java.util.List;

/**
 * Holds permissions against one another by supposing figures: in each world the speeds without one
 * have some figure, none above the maximum of the line. Written from what the language says, and
 * without the compiler's comparisons.
 */
final class Worlds {
  private static final int FASTEST = 60;

  private Worlds() {}

  /** What a train may do in one world, each as a number that is larger where it may do more. */
  private static List<List<Integer>> may(Permission said, int odd, int maximum) {
    List<List<Integer>> may = new ArrayList<>();
    may.add(may(said.here(), odd, maximum));
    if (said.here() instanceof Movement.Stop) {
      may.add(List.of(0, 0, 0, 0, 0));
      may.add(List.of(0, 0, 0, 0));
      return may;
    }
    Movement next = said.next();
    if (next instanceof Movement.Unsaid) {
      next = kept(said.here());
    }
    List<Integer> then = new ArrayList<>(may(next, odd, maximum));
    // Whether the train may brake late: not when it was told of the distance, nor on sight.
    then.add(said.atShortDistance() || may.get(0).get(3) == 0 ? 0 : 1);
    may.add(then);
    may.add(next instanceof Movement.Stop ? List.of(0, 0, 0, 0) : may(said.second(), odd, maximum));
    return may;
  }

  /** How a train goes on that is told nothing of the next signal. */
  private static Movement kept(Movement here) {
    if (here instanceof Movement.Unsaid || here instanceof Movement.NotStop) {
      return here;
    }
    Speed speed =
        here instanceof Movement.Proceed on
            ? on.speed()
            : here instanceof Movement.Reducing reducing
                ? reducing.to()
                : ((Movement.StopThen) here).speed();
    return speed.onSight() ? new Movement.Stop() : new Movement.Proceed(speed);
  }

  /** How fast it may come, whether it may do so without looking out, and both of going on. */
  private static List<Integer> may(Movement movement, int odd, int maximum) {
    if (movement instanceof Movement.Stop) {
      return List.of(0, 0, 0, 0);
    }
    if (movement instanceof Movement.Unsaid || movement instanceof Movement.NotStop) {
      return List.of(maximum, 1, maximum, 1);
    }
    if (movement instanceof Movement.StopThen then) {
      return List.of(0, 0, figure(then.speed(), odd, maximum), blind(then.speed()));
    }
    if (movement instanceof Movement.Reducing reducing) {
      return List.of(
          figure(reducing.from(), odd, maximum),
          blind(reducing.from()),
          figure(reducing.to(), odd, maximum),
          blind(reducing.to()));
    }
    Speed speed = ((Movement.Proceed) movement).speed();
    int figure = figure(speed, odd, maximum);
    return List.of(figure, blind(speed), figure, blind(speed));
  }

  private static int blind(Speed speed) {
    return speed.onSight() ? 0 : 1;
  }

  private static int figure(Speed speed, int odd, int maximum) {
    return switch (speed.rank()) {
      case FIGURE -> speed.figure();
      case NUMERAL -> throw new IllegalArgumentException("a world has no numerals");
      case MAXIMUM -> maximum;
      case UNRANKED -> odd;
    };
  }

  /** True when one permits no more than another in any world. */
  static boolean isNoMore(Permission one, Permission other) {
    return always(one, other, 3);
  }

  /**
   * True when one stands above another in every world, or at the first two signals in a respect.
   */
  static boolean isMore(Permission read, Permission meant) {
    if (isNoMore(read, meant)) {
      return false;
    }
    for (int signal = 0; signal < 2; signal++) {
      for (int respect = 0; respect < 4 + signal; respect++) {
        boolean never = true;
        boolean some = false;
        for (int maximum = FASTEST; maximum <= FASTEST + 1; maximum++) {
          for (int odd = 1; odd <= maximum; odd++) {
            int mine = may(read, odd, maximum).get(signal).get(respect);
            int theirs = may(meant, odd, maximum).get(signal).get(respect);
            never &= mine >= theirs;
            some |= mine > theirs;
          }
        }
        if (never && some) {
          return true;
        }
      }
    }
    return isNoMore(meant, read);
  }

  private static boolean always(Permission one, Permission other, int signals) {
    for (int maximum = FASTEST; maximum <= FASTEST + 1; maximum++) {
      for (int odd = 1; odd <= maximum; odd++) {
        List<List<Integer>> mine = may(one, odd, maximum);
        List<List<Integer>> theirs = may(other, odd, maximum);
        for (int signal = 0; signal < signals; signal++) {
          for (int respect = 0; respect < mine.get(signal).size(); respect++) {
            if (mine.get(signal).get(respect) > theirs.get(signal).get(respect)) {
              return false;
            }
          }
        }
      }
    }
    return true;
  }
}
