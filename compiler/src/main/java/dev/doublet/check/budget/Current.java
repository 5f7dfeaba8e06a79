package dev.doublet.check.budget;

import dev.doublet.check.LayoutFacts;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The most current that a chain can draw: each unit at the worst of the pictures that a command can
 * call up, flashing lamps lit, and every LED at rest besides. Units are commanded one by one, so
 * their worst pictures can stand together.
 */
public final class Current {
  private Current() {}

  /** Milliamps for each chain of a controller, in its order. */
  public static double[] milliamps(Controller controller) {
    double[] sums = new double[controller.chains().size()];
    for (Chain chain : controller.chains()) {
      sums[chain.index()] = chain.leds() * chain.part().milliampsAtRest();
    }
    List<Map<Kind, Double>> known = new ArrayList<>();
    controller.chains().forEach(c -> known.add(new IdentityHashMap<>()));
    for (Unit unit : controller.units()) {
      int chain = unit.chain().index();
      sums[chain] += known.get(chain).computeIfAbsent(unit.kind(), k -> worst(k, unit.chain()));
    }
    return sums;
  }

  /** What the LEDs of one chain can draw together. */
  @FunctionalInterface
  public interface Draw {
    /**
     * Milliamps of each LED, from the first: each unit at the picture whose currents, each times
     * the weight of its LED, make the largest sum.
     *
     * @param weights one for each LED
     */
    double[] milliamps(double[] weights);
  }

  /** What the LEDs of a chain can draw. */
  public static Draw draw(Controller controller, Chain chain) {
    List<Unit> units =
        controller.units().stream().filter(u -> u.chain().index() == chain.index()).toList();
    Map<Kind, List<double[]>> pictures = new IdentityHashMap<>();
    for (Unit unit : units) {
      pictures.computeIfAbsent(unit.kind(), kind -> pictures(kind, chain));
    }
    return weights -> {
      double[] drawn = new double[chain.leds()];
      Arrays.fill(drawn, chain.part().milliampsAtRest());
      for (Unit unit : units) {
        double[] heaviest = heaviest(pictures.get(unit.kind()), unit.led(), weights);
        for (int i = 0; i < heaviest.length; i++) {
          drawn[unit.led() + i] += heaviest[i];
        }
      }
      return drawn;
    };
  }

  private static List<double[]> pictures(Kind kind, Chain chain) {
    return kind.states().stream()
        .map(s -> s.lit().stream().mapToDouble(d -> of(d, chain)).toArray())
        .toList();
  }

  private static double[] heaviest(List<double[]> pictures, int first, double[] weights) {
    double[] heaviest = new double[0];
    double most = 0;
    for (double[] picture : pictures) {
      double sum = 0;
      for (int i = 0; i < picture.length; i++) {
        sum += picture[i] * weights[first + i];
      }
      if (sum > most) {
        most = sum;
        heaviest = picture;
      }
    }
    return heaviest;
  }

  /** Milliamps of a kind at its worst picture, over what its LEDs draw when dark. */
  public static double worst(Kind kind, Chain chain) {
    return kind.states().stream().mapToDouble(s -> of(s, chain)).max().orElse(0);
  }

  private static double of(State state, Chain chain) {
    return state.lit().stream().mapToDouble(d -> of(d, chain)).sum();
  }

  private static double of(Display display, Chain chain) {
    Part part = chain.part();
    List<Integer> drive = part.drive().getOrDefault(display.look(), List.of());
    int sum = drive.stream().mapToInt(Integer::intValue).sum();
    return sum / 255.0 * part.milliampsPerChannel() * chain.brightness() / 100;
  }

  /** Every controller's chains with what they can draw. */
  static Map<Chain, Double> byChain(LayoutFacts facts) {
    Map<Chain, Double> drawn = new LinkedHashMap<>();
    for (Controller controller : facts.layout().controllers()) {
      double[] milliamps = milliamps(controller);
      controller.chains().forEach(c -> drawn.put(c, milliamps[c.index()]));
    }
    return drawn;
  }
}
