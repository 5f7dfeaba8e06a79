package dev.doublet.power;

import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;

/**
 * How current flows along a chain: LEDs evenly spaced along the cable, which begins at the supply
 * and ends at the last LED; solid copper at 20 °C; leads to further feeds without loss; every LED
 * draws a constant current, whatever its voltage, as one-wire LEDs do.
 *
 * <p>Each figure is exact for the pictures that are worst for it alone: what an LED loses, and what
 * a feed leads in, is a sum of every LED's current times a weight, so at each {@link Moment} the
 * worst picture of each unit can be chosen without the others. For all LEDs of one {@link Stretch}
 * on one side of a unit that choice is the same one, which takes the whole chain in a few passes.
 */
public final class Flow {
  private final Chain chain;
  private final Draw draw;
  private final double[] lost;
  private final int worst;
  private final List<Double> feedAmps;
  private final double mostAmps;

  private Flow(Chain chain, Draw draw, Cable cable, List<Integer> feeds) {
    this.chain = chain;
    this.draw = draw;
    double ohms = 2 * cable.ohmsPerMetre() * cable.metres() / chain.leds();
    List<Stretch> stretches = Stretch.of(chain.leds(), feeds);
    this.lost = new double[chain.leds()];
    for (List<Draw.Block> moment : draw.moments()) {
      stretches.forEach(
          stretch -> lose(blocks(moment, stretch.from(), stretch.to()), stretch, ohms));
    }
    int most = 0;
    for (int led = 1; led < lost.length; led++) {
      most = lost[led] > lost[most] ? led : most;
    }
    this.worst = most;
    List<Double> led = new ArrayList<>();
    double piece = 0;
    for (int i = 0; i < feeds.size(); i++) {
      Stretch left = stretches.get(i);
      Stretch right = stretches.get(i + 1);
      int feed = feeds.get(i);
      led.add(
          amps(
              left.from(),
              right.to(),
              p -> p < feed ? left.fromAfter(p) : p > feed ? right.fromBefore(p) : 1));
      piece = Math.max(piece, amps(left.from(), left.to(), left::fromAfter));
      piece = Math.max(piece, amps(right.from(), right.to(), right::fromBefore));
    }
    this.feedAmps = List.copyOf(led);
    this.mostAmps = piece;
  }

  /**
   * The flow along a chain as it is wired.
   *
   * @param draw what its LEDs can draw
   * @return empty when the layout says no cable or no supply
   */
  public static Optional<Flow> of(Chain chain, Draw draw) {
    boolean known = chain.cable().isSaid() && chain.supply().volts() > 0 && chain.leds() > 0;
    return known
        ? Optional.of(new Flow(chain, draw, chain.cable(), chain.feeds()))
        : Optional.empty();
  }

  /** The same chain with another cable or other feeds. */
  public Flow with(Cable cable, List<Integer> feeds) {
    return new Flow(chain, draw, cable, feeds);
  }

  /** Finds what each LED of a stretch loses at a moment, at the pictures that take most from it. */
  private void lose(List<Draw.Block> blocks, Stretch stretch, double ohms) {
    double[] beyond = new double[blocks.size() + 1];
    for (int i = blocks.size() - 1; i >= 0; i--) {
      beyond[i] = beyond[i + 1] + heaviest(blocks.get(i), stretch, stretch::far);
    }
    double nearer = 0;
    for (int i = 0; i < blocks.size(); i++) {
      lose(stretch, ohms / 1000, blocks.get(i), nearer, beyond[i + 1]);
      nearer += heaviest(blocks.get(i), stretch, stretch::near);
    }
  }

  /**
   * The same for the LEDs of one block.
   *
   * @param ohms of a piece, for milliamps
   * @param nearer milliamps of the blocks before it, each times how near
   * @param beyond milliamps of the blocks after it, each times how far
   */
  private void lose(Stretch stretch, double ohms, Draw.Block block, double nearer, double beyond) {
    int from = Math.max(stretch.from(), block.first() + 1);
    int to = Math.min(stretch.to(), block.first() + block.leds());
    for (double[] picture : block.pictures()) {
      double before = nearer;
      double after = beyond;
      for (int place = from; place <= to; place++) {
        after += picture[place - 1 - block.first()] * stretch.far(place);
      }
      for (int place = from; place <= to; place++) {
        double drawn = picture[place - 1 - block.first()];
        before += drawn * stretch.near(place);
        after -= drawn * stretch.far(place);
        double volts = ohms * (stretch.far(place) * before + stretch.near(place) * after);
        lost[place - 1] = Math.max(lost[place - 1], volts);
      }
    }
  }

  /**
   * The most that a block draws in a stretch, each LED's milliamps times the weight of its place.
   */
  private static double heaviest(Draw.Block block, Stretch stretch, IntToDoubleFunction weight) {
    return heaviest(block, stretch.from(), stretch.to(), weight);
  }

  private static double heaviest(
      Draw.Block block, int first, int last, IntToDoubleFunction weight) {
    int from = Math.max(first, block.first() + 1);
    int to = Math.min(last, block.first() + block.leds());
    double most = 0;
    for (double[] picture : block.pictures()) {
      double sum = 0;
      for (int place = from; place <= to; place++) {
        sum += picture[place - 1 - block.first()] * weight.applyAsDouble(place);
      }
      most = Math.max(most, sum);
    }
    return most;
  }

  /** The largest sum of currents between two places, each times the weight of its place. */
  private double amps(int from, int to, IntToDoubleFunction weight) {
    double most = 0;
    for (List<Draw.Block> moment : draw.moments()) {
      double sum = 0;
      for (Draw.Block block : blocks(moment, from, to)) {
        sum += heaviest(block, from, to, weight);
      }
      most = Math.max(most, sum);
    }
    return most / 1000;
  }

  /** The blocks with an LED between two places. */
  private static List<Draw.Block> blocks(List<Draw.Block> all, int from, int to) {
    return from > to ? List.of() : all.subList(blockAt(all, from), blockAt(all, to) + 1);
  }

  private static int blockAt(List<Draw.Block> all, int place) {
    int low = 0;
    int high = all.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (all.get(middle).first() < place) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }

  /** The chain. */
  public Chain chain() {
    return chain;
  }

  /** Volts lost on the way to the LED that gets least. */
  public double drop() {
    return lost[worst];
  }

  /** Volts at the LED that gets least. */
  public double leastVolts() {
    return volts(worst);
  }

  /** The least volts at an LED, from 0. */
  public double volts(int led) {
    return chain.supply().volts() - lost[led];
  }

  /** The LED that gets least, from 0; the first of equals. */
  public int worstLed() {
    return worst;
  }

  /** The most amperes led in at each feed, in the order of {@link Chain#feeds}. */
  public List<Double> feedAmps() {
    return feedAmps;
  }

  /**
   * The fuse for each feed, in the order of the chain's feeds.
   *
   * @return amperes; empty for a feed that only a thicker wire could be guarded for
   */
  public List<Optional<Double>> fuses() {
    return feedAmps.stream().map(amps -> Wire.fuse(chain.cable(), amps)).toList();
  }

  /**
   * The most that flows in any piece of the cable, in amperes: beside a feed, since every LED on
   * the way takes some of it.
   */
  public double mostAmps() {
    return mostAmps;
  }
}
