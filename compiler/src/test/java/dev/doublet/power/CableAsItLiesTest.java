package dev.doublet.power;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.doublet.colour.LedFamily;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Lay;
import dev.doublet.layout.Part;
import dev.doublet.layout.Supply;
import dev.doublet.power.Draw.Block;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * Random cables as they lie, with wires to signals, feeds with wires of their own and up to three
 * supplies: each figure against every choice of pictures, solved as a circuit of resistors and
 * sources that knows nothing of lines, sections or losses.
 */
class CableAsItLiesTest {
  private static final Span NOWHERE = new SourceFile("layout.yaml", "").span(0, 0);
  private static final int CABLES = 1000;

  private final Random random = new Random(1845);

  @Test
  void no_choice_of_pictures_is_worse_and_one_is_as_bad() {
    int supplied = 0;
    for (int i = 0; i < CABLES; i++) {
      List<List<List<Double>>> units = units();
      List<Integer> signals = signals(units);
      int leds = signals.stream().mapToInt(s -> s).sum();
      Chain chain = chain(signals, leds);
      supplied += chain.sections().size() > 1 ? 1 : 0;
      check(chain, units);
    }
    assertThat(supplied).as("cables of several supplies").isGreaterThan(CABLES / 4);
  }

  private void check(Chain chain, List<List<List<Double>>> units) {
    double[] least = new double[chain.leds()];
    Arrays.fill(least, Double.MAX_VALUE);
    double[] led = new double[chain.feeds().size()];
    double[] leads = new double[chain.cable().lay().leads().size()];
    double piece = 0;
    for (double[] loads : choices(units)) {
      Circuit.Solved solved = circuit(chain, loads);
      for (int i = 0; i < least.length; i++) {
        least[i] =
            Math.min(least[i], solved.volts("led " + i + " +") - solved.volts("led " + i + " -"));
      }
      for (int i = 0; i < led.length; i++) {
        led[i] = Math.max(led[i], solved.amps("feed " + chain.feeds().get(i)));
      }
      for (int i = 0; i < leads.length; i++) {
        leads[i] = Math.max(leads[i], solved.amps("lead " + i));
      }
      piece = Math.max(piece, solved.most("cable"));
    }
    Flow flow = Flow.of(chain, draw(units)).orElseThrow();
    for (int i = 0; i < least.length; i++) {
      assertThat(flow.volts(i)).as("LED %d of %s", i, chain).isCloseTo(least[i], within(1e-7));
    }
    assertThat(flow.leastVolts()).isCloseTo(Arrays.stream(least).min().orElseThrow(), within(1e-7));
    for (int i = 0; i < led.length; i++) {
      assertThat(flow.feedAmps().get(i)).as("%s", chain).isCloseTo(led[i], within(1e-7));
    }
    for (int i = 0; i < leads.length; i++) {
      assertThat(flow.leadAmps().get(i)).isCloseTo(leads[i], within(1e-7));
    }
    assertThat(flow.mostAmps()).as("%s", chain).isCloseTo(piece, within(1e-7));
  }

  /** Both wires of the cable, one cut where a further supply begins; LEDs as sources of current. */
  private static Circuit.Solved circuit(Chain chain, double[] loads) {
    Circuit circuit = new Circuit();
    Cable cable = chain.cable();
    Lay lay = cable.lay();
    double perMetre = cable.ohmsPerMetre();
    TreeSet<Integer> cuts = new TreeSet<>();
    lay.feeds().stream().filter(f -> f.supply().isPresent()).forEach(f -> cuts.add(f.at()));
    for (int place = 1; place <= chain.leds(); place++) {
      double ohms = perMetre * (cable.at(place, chain.leds()) - cable.at(place - 1, chain.leds()));
      if (!cuts.contains(place)) {
        circuit.resistor("cable", "place " + (place - 1) + " +", "place " + place + " +", ohms);
      }
      circuit.resistor("ground", "place " + (place - 1) + " -", "place " + place + " -", ohms);
    }
    int section = 0;
    for (int feed : chain.feeds()) {
      double ohms = lay.feed(feed).map(f -> f.wire().ohms() / 2).orElse(0.0);
      Supply by = chain.supply();
      if (lay.feed(feed).flatMap(Lay.Feed::supply).isPresent()) {
        by = lay.feed(feed).flatMap(Lay.Feed::supply).get();
        section++;
      }
      String source = "supply " + section;
      if (feed == chain.feeds().get(0) || lay.feed(feed).flatMap(Lay.Feed::supply).isPresent()) {
        circuit.source(source + " +", source + " -", by.volts());
      }
      circuit.resistor("feed " + feed, source + " +", "place " + feed + " +", ohms);
      circuit.resistor("return " + feed, "place " + feed + " -", source + " -", ohms);
    }
    for (int led = 0; led < loads.length; led++) {
      int at = led;
      String from = "place " + (led + 1);
      for (int i = 0; i < lay.leads().size(); i++) {
        Lay.Lead lead = lay.leads().get(i);
        if (lead.first() <= at && at < lead.first() + lead.leds()) {
          if (lead.first() == at) {
            double ohms = lead.wire().ohms() / 2;
            circuit.resistor("lead " + i, from + " +", "lead " + i + " +", ohms);
            circuit.resistor("lead back " + i, "lead " + i + " -", from + " -", ohms);
          }
          from = "lead " + i;
          break;
        }
      }
      circuit.resistor("joint", from + " +", "led " + led + " +", 0);
      circuit.resistor("joint", "led " + led + " -", from + " -", 0);
      circuit.load("led " + led + " +", "led " + led + " -", loads[led]);
    }
    return circuit.solve("supply 0 -");
  }

  /** So many units, each with the milliamps of its LEDs in each of its pictures. */
  private List<List<List<Double>>> units() {
    List<List<List<Double>>> units = new ArrayList<>();
    int count = 2 + random.nextInt(5);
    for (int i = 0; i < count; i++) {
      int leds = 1 + random.nextInt(3);
      List<List<Double>> pictures = new ArrayList<>();
      for (int j = 0; j <= random.nextInt(2); j++) {
        List<Double> picture = new ArrayList<>();
        for (int led = 0; led < leds; led++) {
          picture.add((double) random.nextInt(600));
        }
        pictures.add(picture);
      }
      units.add(pictures);
    }
    return units;
  }

  /** How many LEDs each signal has, of one unit or several. */
  private List<Integer> signals(List<List<List<Double>>> units) {
    List<Integer> signals = new ArrayList<>();
    for (List<List<Double>> unit : units) {
      int leds = unit.get(0).size();
      if (!signals.isEmpty() && random.nextInt(4) == 0) {
        signals.set(signals.size() - 1, signals.get(signals.size() - 1) + leds);
      } else {
        signals.add(leds);
      }
    }
    return signals;
  }

  private Chain chain(List<Integer> signals, int leds) {
    List<Double> at = new ArrayList<>();
    List<Lay.Lead> leads = new ArrayList<>();
    List<Integer> begins = new ArrayList<>();
    double metres = 0.1 + random.nextInt(10) / 4.0;
    for (int signal : signals) {
      if (random.nextInt(4) == 0) {
        leads.add(new Lay.Lead(at.size(), signal, wire()));
      }
      begins.add(at.size() + 1);
      at.addAll(java.util.Collections.nCopies(signal, metres));
      metres += random.nextInt(3) == 0 ? 0 : random.nextInt(10) / 3.0;
    }
    TreeSet<Integer> feeds = new TreeSet<>();
    List<Lay.Feed> own = new ArrayList<>();
    feeds.add(random.nextInt(3) == 0 ? 1 : 0);
    int supplies = 1;
    for (int begin : begins.subList(1, begins.size())) {
      boolean apart = at.get(begin - 1) > at.get(begin - 2);
      if (random.nextInt(3) == 0 && supplies < 3) {
        supplies++;
        feeds.add(begin);
        own.add(new Lay.Feed(begin, random.nextBoolean() ? wire() : Cable.UNSAID, supply()));
      } else if (apart && random.nextInt(3) == 0) {
        feeds.add(begin);
        if (random.nextBoolean()) {
          own.add(new Lay.Feed(begin, wire(), null));
        }
      }
    }
    if (random.nextBoolean()) {
      own.add(0, new Lay.Feed(feeds.first(), wire(), null));
    }
    Cable cable = wire().lying(at.get(leds - 1), new Lay(at, leads, List.of(), own));
    LedFamily family = LedFamily.named("one-wire-rgb-5050").orElseThrow();
    Part part = new Part("rgb", "GRB", family, new TreeMap<>(), 12, 0.6, 280, 3.7, 5.3, NOWHERE);
    return new Chain("main", 0, part, 100, 100, leds, supply(), cable, List.copyOf(feeds), NOWHERE);
  }

  private Supply supply() {
    return new Supply("", 5 + random.nextInt(3) / 10.0, 2000);
  }

  private Cable wire() {
    return Cable.ofGauge(18 + 2 * random.nextInt(6), 0.2 + random.nextInt(8) / 2.0);
  }

  private static Draw draw(List<List<List<Double>>> units) {
    List<Block> blocks = new ArrayList<>();
    int first = 0;
    for (List<List<Double>> unit : units) {
      blocks.add(
          new Block(
              first, unit.stream().map(p -> p.stream().mapToDouble(d -> d).toArray()).toList()));
      first += unit.get(0).size();
    }
    return new Draw(List.of(blocks));
  }

  /** Amperes of each LED, for every choice of pictures. */
  private static List<double[]> choices(List<List<List<Double>>> units) {
    List<List<Double>> all = List.of(List.of());
    for (List<List<Double>> unit : units) {
      List<List<Double>> longer = new ArrayList<>();
      for (List<Double> before : all) {
        for (List<Double> picture : unit) {
          List<Double> with = new ArrayList<>(before);
          picture.forEach(milliamps -> with.add(milliamps / 1000));
          longer.add(with);
        }
      }
      all = longer;
    }
    return all.stream().map(c -> c.stream().mapToDouble(d -> d).toArray()).toList();
  }
}
