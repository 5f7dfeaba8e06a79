package dev.doublet.check.budget;

import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * How current flows along a chain: LEDs evenly spaced along the cable, which begins at the supply
 * and ends at the last LED; solid copper at 20 °C; leads to further feeds without loss. Currents
 * are those of the pictures that draw most; voltages those of the pictures that take most from the
 * LED that gets least, which may be others where heads have several lamps.
 */
public final class Flow {
  /** Less than this much more loss, in volts, is none. */
  private static final double NOTHING = 1e-9;

  private final Chain chain;
  private final Current.Draw draw;
  private final double[] milliamps;
  private final Ladder currents;
  private final Ladder losses;

  private Flow(Chain chain, Current.Draw draw, double[] milliamps, Ladder currents, Ladder losses) {
    this.chain = chain;
    this.draw = draw;
    this.milliamps = milliamps;
    this.currents = currents;
    this.losses = losses;
  }

  /**
   * The flow along a chain as it is wired.
   *
   * @param draw what its LEDs can draw ({@link Current#draw})
   * @return empty when the layout says no cable or no supply
   */
  public static Optional<Flow> of(Chain chain, Current.Draw draw) {
    boolean known = chain.cable().isSaid() && chain.supply().volts() > 0 && chain.leds() > 0;
    return known ? Optional.of(solve(chain, draw, chain.cable(), chain.feeds())) : Optional.empty();
  }

  /** The same chain with another cable or other feeds. */
  Flow with(Cable cable, List<Integer> feeds) {
    return solve(chain, draw, cable, feeds);
  }

  /**
   * Begins with the pictures that draw most. What an LED loses is a sum of every LED's current
   * times a resistance that both share, which by reciprocity is the loss there of one ampere drawn
   * here: so the pictures that take most from the LED that gets least can be chosen unit by unit.
   * That may make another LED the one that gets least; the loss only grows, so this ends.
   */
  private static Flow solve(Chain chain, Current.Draw draw, Cable cable, List<Integer> feeds) {
    double ohms = 2 * cable.ohmsPerMetre() * cable.metres() / chain.leds();
    double[] even = new double[chain.leds()];
    Arrays.fill(even, 1);
    double[] most = draw.milliamps(even);
    Ladder currents = Ladder.solve(loads(most), ohms, feeds);
    Ladder losses = currents;
    while (true) {
      double[] one = new double[chain.leds()];
      one[losses.worst() - 1] = 1000;
      double[] shared = losses(Ladder.solve(loads(one), ohms, feeds));
      Ladder next = Ladder.solve(loads(draw.milliamps(shared)), ohms, feeds);
      if (next.most() <= losses.most() + NOTHING) {
        return new Flow(chain, draw, most, currents, losses);
      }
      losses = next;
    }
  }

  private static double[] loads(double[] milliamps) {
    double[] loads = new double[milliamps.length + 1];
    for (int led = 0; led < milliamps.length; led++) {
      loads[led + 1] = milliamps[led] / 1000;
    }
    return loads;
  }

  private static double[] losses(Ladder ladder) {
    return ladder.drops().stream().skip(1).mapToDouble(d -> d).toArray();
  }

  /** The chain. */
  public Chain chain() {
    return chain;
  }

  /** Volts lost on the way to the LED that gets least. */
  public double drop() {
    return losses.most();
  }

  /** Volts at the LED that gets least. */
  public double leastVolts() {
    return chain.supply().volts() - drop();
  }

  /** Volts at an LED, from 0, while the one that gets least does. */
  public double volts(int led) {
    return chain.supply().volts() - losses.drops().get(led + 1);
  }

  /** The LED that gets least, from 0; the first of equals. */
  public int worstLed() {
    return losses.worst() - 1;
  }

  /** Amperes led in at each feed, in the order of {@link Chain#feeds}. */
  public List<Double> feedAmps() {
    List<Double> amps = currents.amps();
    return chain.feeds().stream()
        .map(
            node -> {
              double onward = node < amps.size() ? amps.get(node) : 0;
              double back = node > 0 ? -amps.get(node - 1) : 0;
              return onward + back + (node > 0 ? milliamps[node - 1] / 1000 : 0);
            })
        .toList();
  }

  /** The most that flows in any piece of the cable, in amperes. */
  public double mostAmps() {
    return currents.amps().stream().mapToDouble(Math::abs).max().orElse(0);
  }
}
