package dev.doublet.power;

import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Lay;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;

/**
 * How current flows along a chain: LEDs along the cable as it lies, or else evenly spaced on one
 * that begins at the supply and ends at the last LED; solid copper at 20 °C; feeds and signals by
 * wires of their own where those are said, and otherwise without loss; every LED draws a constant
 * current, whatever its voltage, as one-wire LEDs do. What further supplies feed is a line for
 * itself: their grounds are one, and no supply's current finds another way back to it.
 *
 * <p>Each figure is exact for the pictures that are worst for it alone: what an LED loses, and what
 * a feed leads in, is a sum of every LED's current times a weight, so at each {@link Moment} the
 * worst picture of each unit can be chosen without the others. For all LEDs of one {@link Stretch}
 * on one side of a unit that choice is the same one, which takes the whole chain in a few passes.
 */
public final class Flow {
  private final Chain chain;
  private final Draw draw;
  private final double[] supplied;
  private final double[] lost;
  private final int worst;
  private final List<Double> feedAmps;
  private final List<Double> leadAmps;
  private final double mostAmps;

  private Flow(Chain chain, Draw draw) {
    this.chain = chain;
    this.draw = draw;
    this.supplied = new double[chain.leds()];
    this.lost = new double[chain.leds()];
    List<Double> led = new ArrayList<>();
    List<Stretch> stretches = new ArrayList<>();
    double piece = 0;
    for (Chain.Section section : chain.sections()) {
      Arrays.fill(supplied, section.from() - 1, section.to(), section.supply().volts());
      Line line = Line.of(chain, section);
      stretches.addAll(line.stretches());
      for (int feed : section.feeds()) {
        Line.Inlet inlet = line.inlet(chain, feed);
        led.add(amps(section, inlet.all(), 1));
        for (double[] side : List.of(inlet.before(), inlet.after())) {
          piece = Math.max(piece, Math.max(amps(section, side, 1), amps(section, side, -1)));
        }
      }
    }
    this.feedAmps = List.copyOf(led);
    this.mostAmps = piece;
    List<Lay.Lead> leads = chain.cable().lay().leads();
    double[] carried = new double[leads.size()];
    for (List<Draw.Block> moment : draw.moments()) {
      double[] now = new double[chain.leds()];
      stretches.forEach(s -> lose(blocks(moment, s.from(), s.to()), s, now));
      for (int i = 0; i < carried.length; i++) {
        carried[i] = Math.max(carried[i], hang(moment, leads.get(i), now));
      }
      for (int i = 0; i < now.length; i++) {
        lost[i] = Math.max(lost[i], now[i]);
      }
    }
    this.leadAmps = Arrays.stream(carried).boxed().toList();
    int most = 0;
    for (int i = 1; i < lost.length; i++) {
      most = volts(i) < volts(most) ? i : most;
    }
    this.worst = most;
  }

  /**
   * The flow along a chain as it is wired.
   *
   * @param draw what its LEDs can draw
   * @return empty when the layout says no cable or no supply
   */
  public static Optional<Flow> of(Chain chain, Draw draw) {
    boolean known =
        chain.cable().isSaid()
            && chain.leds() > 0
            && chain.sections().stream().allMatch(s -> s.supply().volts() > 0);
    return known ? Optional.of(new Flow(chain, draw)) : Optional.empty();
  }

  /** The same chain with another cable or other feeds. */
  public Flow with(Cable cable, List<Integer> feeds) {
    return new Flow(chain.wired(cable, feeds), draw);
  }

  /**
   * Adds what the wires to a signal lose, whose LEDs all stand at one place of the cable, so that
   * the picture that draws most is worst for all of them; returns the amperes that they carry.
   */
  private static double hang(List<Draw.Block> moment, Lay.Lead lead, double[] lost) {
    double milliamps = 0;
    int end = lead.first() + lead.leds();
    for (Draw.Block unit : blocks(moment, lead.first() + 1, end)) {
      milliamps += heaviest(unit, lead.first() + 1, end, led -> 1);
    }
    for (int led = lead.first(); led < end; led++) {
      lost[led] += milliamps / 1000 * lead.wire().ohms();
    }
    return milliamps / 1000;
  }

  /** Finds what each LED of a stretch loses at a moment, at the pictures that take most from it. */
  private static void lose(List<Draw.Block> blocks, Stretch stretch, double[] lost) {
    double[] beyond = new double[blocks.size() + 1];
    for (int i = blocks.size() - 1; i >= 0; i--) {
      beyond[i] = beyond[i + 1] + heaviest(blocks.get(i), stretch, stretch::far);
    }
    double nearer = 0;
    for (int i = 0; i < blocks.size(); i++) {
      lose(stretch, blocks.get(i), nearer, beyond[i + 1], lost);
      nearer += heaviest(blocks.get(i), stretch, stretch::near);
    }
  }

  /**
   * The same for the LEDs of one block.
   *
   * @param nearer milliamps of the blocks before it, each times how near
   * @param beyond milliamps of the blocks after it, each times how far
   */
  private static void lose(
      Stretch stretch, Draw.Block block, double nearer, double beyond, double[] lost) {
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
        double volts = (stretch.far(place) * before + stretch.near(place) * after) / 1000;
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
    double most = Double.NEGATIVE_INFINITY;
    for (double[] picture : block.pictures()) {
      double sum = 0;
      for (int place = from; place <= to; place++) {
        sum += picture[place - 1 - block.first()] * weight.applyAsDouble(place);
      }
      most = Math.max(most, sum);
    }
    return most;
  }

  /** The largest sum of currents of a section, each times its weight, in amperes. */
  private double amps(Chain.Section section, double[] weights, int sign) {
    double most = Double.NEGATIVE_INFINITY;
    for (List<Draw.Block> moment : draw.moments()) {
      double sum = 0;
      for (Draw.Block block : blocks(moment, section.from(), section.to())) {
        sum +=
            heaviest(block, section.from(), section.to(), p -> sign * weights[p - section.from()]);
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

  /** The least volts at any LED, were so many times as much lost on the way. */
  public double leastVolts(double times) {
    double least = Double.MAX_VALUE;
    for (int led = 0; led < lost.length; led++) {
      least = Math.min(least, supplied[led] - times * lost[led]);
    }
    return least;
  }

  /** Volts at the LED that gets least. */
  public double leastVolts() {
    return volts(worst);
  }

  /** The least volts at an LED, from 0. */
  public double volts(int led) {
    return supplied[led] - lost[led];
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
    List<Optional<Double>> fuses = new ArrayList<>();
    for (int i = 0; i < feedAmps.size(); i++) {
      fuses.add(Wire.fuse(thinnest(chain.feeds().get(i)), feedAmps.get(i)));
    }
    return fuses;
  }

  /**
   * The fuse for each signal's own wires where they leave the cable, in the order of the leads.
   *
   * @return amperes; empty where the fuses of all feeds guard those wires too
   */
  public List<Optional<Double>> leadFuses() {
    double guarded =
        fuses().stream().mapToDouble(f -> f.orElse(Double.MAX_VALUE)).max().orElseThrow();
    List<Optional<Double>> fuses = new ArrayList<>();
    for (int i = 0; i < leadAmps.size(); i++) {
      Cable wire = chain.cable().lay().leads().get(i).wire();
      fuses.add(guarded > Wire.bears(wire) ? Wire.fuse(wire, leadAmps.get(i)) : Optional.empty());
    }
    return fuses;
  }

  /** The thinner of the wires of a feed and those of the cable, which its fuse guards too. */
  public Cable thinnest(int feed) {
    Cable cable = chain.cable();
    return cable
        .lay()
        .feed(feed)
        .map(Lay.Feed::wire)
        .filter(w -> w.isSaid() && w.squareMillimetres() < cable.squareMillimetres())
        .orElse(cable);
  }

  /** The most amperes to each signal that has wires of its own, in the order of the cable. */
  public List<Double> leadAmps() {
    return leadAmps;
  }

  /**
   * The most that flows in any piece of the cable, in amperes: beside a feed, since every LED on
   * the way takes some of it.
   */
  public double mostAmps() {
    return mostAmps;
  }
}
