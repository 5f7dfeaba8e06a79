package dev.doublet.check.budget;

import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * How current flows along a chain when every signal draws its most: LEDs evenly spaced along the
 * cable, which begins at the supply and ends at the last LED; solid copper at 20 °C; leads to
 * further feeds without loss.
 */
public final class Flow {
  private final Chain chain;
  private final double[] milliamps;
  private final Ladder ladder;

  private Flow(Chain chain, double[] milliamps, Ladder ladder) {
    this.chain = chain;
    this.milliamps = milliamps;
    this.ladder = ladder;
  }

  /**
   * The flow along a chain as it is wired.
   *
   * @param milliamps what each LED draws ({@link Current#byLed})
   * @return empty when the layout says no cable or no supply
   */
  public static Optional<Flow> of(Chain chain, double[] milliamps) {
    boolean known = chain.cable().isSaid() && chain.supply().volts() > 0 && chain.leds() > 0;
    return known
        ? Optional.of(solve(chain, milliamps, chain.cable(), chain.feeds()))
        : Optional.empty();
  }

  /** The same chain with another cable or other feeds. */
  Flow with(Cable cable, List<Integer> feeds) {
    return solve(chain, milliamps, cable, feeds);
  }

  private static Flow solve(Chain chain, double[] milliamps, Cable cable, List<Integer> feeds) {
    double[] loads = new double[chain.leds() + 1];
    for (int led = 0; led < chain.leds(); led++) {
      loads[led + 1] = milliamps[led] / 1000;
    }
    double ohms = 2 * cable.ohmsPerMetre() * cable.metres() / chain.leds();
    return new Flow(chain, milliamps, Ladder.solve(loads, ohms, feeds));
  }

  /** The chain. */
  public Chain chain() {
    return chain;
  }

  /** Volts lost on the way to the LED that gets least. */
  public double drop() {
    return ladder.drops().get(worstLed() + 1);
  }

  /** Volts at the LED that gets least. */
  public double leastVolts() {
    return chain.supply().volts() - drop();
  }

  /** Volts at an LED, from 0. */
  public double volts(int led) {
    return chain.supply().volts() - ladder.drops().get(led + 1);
  }

  /** The LED that gets least, from 0; the first of equals. */
  public int worstLed() {
    return IntStream.range(0, chain.leds())
        .reduce((a, b) -> ladder.drops().get(b + 1) > ladder.drops().get(a + 1) ? b : a)
        .orElseThrow();
  }

  /** Amperes led in at each feed, in the order of {@link Chain#feeds}. */
  public List<Double> feedAmps() {
    List<Double> amps = ladder.amps();
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
    return ladder.amps().stream().mapToDouble(Math::abs).max().orElse(0);
  }
}
