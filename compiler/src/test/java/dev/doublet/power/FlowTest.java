package dev.doublet.power;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.doublet.colour.LedFamily;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Part;
import dev.doublet.layout.Supply;
import dev.doublet.power.Draw.Block;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

/** The worst figures of a chain, against every choice of pictures solved as a matrix. */
class FlowTest {
  private static final Span NOWHERE = new SourceFile("layout.yaml", "").span(0, 0);
  private static final double VOLTS = 5;
  private static final Cable CABLE = Cable.ofGauge(28, 20);

  /**
   * A chain as units of so many LEDs, each with its pictures in milliamps at every moment, and
   * where it is fed.
   */
  record Line(List<List<List<List<Double>>>> moments, List<Integer> feeds) {
    static Line of(List<List<List<Double>>> units, List<Integer> feeds) {
      return new Line(List.of(units), feeds);
    }

    int leds() {
      return moments.get(0).stream().mapToInt(u -> u.get(0).size()).sum();
    }

    Draw draw() {
      return new Draw(moments.stream().map(Line::blocks).toList());
    }

    private static List<Block> blocks(List<List<List<Double>>> units) {
      List<Block> blocks = new ArrayList<>();
      int first = 0;
      for (List<List<Double>> unit : units) {
        blocks.add(new Block(first, unit.stream().map(FlowTest::array).toList()));
        first += unit.get(0).size();
      }
      return blocks;
    }

    Flow flow() {
      return Flow.of(chain(leds(), feeds), draw()).orElseThrow();
    }

    double ohms() {
      return 2 * CABLE.ohmsPerMetre() * CABLE.metres() / leds();
    }

    /** Amperes at each place of the line, from its start, for every choice of pictures. */
    List<double[]> choices() {
      return moments.stream().flatMap(m -> choices(m).stream()).toList();
    }

    private static List<double[]> choices(List<List<List<Double>>> units) {
      List<List<Double>> all = List.of(List.of(0.0));
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
      return all.stream().map(FlowTest::array).toList();
    }
  }

  @Provide
  Arbitrary<Line> lines() {
    return Combinators.combine(
            lines(1, 5, 3, 3), Arbitraries.doubles().between(0, 1).list().ofSize(7))
        .as(
            (line, dimmed) -> {
              List<List<List<Double>>> first = line.moments().get(0);
              return new Line(List.of(first, later(first, dimmed)), line.feeds());
            });
  }

  /** The same units at another moment, at which each LED of each picture draws another current. */
  private static List<List<List<Double>>> later(
      List<List<List<Double>>> units, List<Double> times) {
    List<List<List<Double>>> all = new ArrayList<>();
    int next = 0;
    for (List<List<Double>> unit : units) {
      List<List<Double>> pictures = new ArrayList<>();
      for (List<Double> picture : unit) {
        List<Double> loads = new ArrayList<>();
        for (double load : picture) {
          loads.add(2 * load * times.get(next++ % times.size()));
        }
        pictures.add(loads);
      }
      all.add(pictures);
    }
    return all;
  }

  @Provide
  Arbitrary<Line> longLinesOfOnePicture() {
    return lines(1, 12, 4, 1);
  }

  private static Arbitrary<Line> lines(int leastUnits, int units, int leds, int pictures) {
    Arbitrary<Double> current = Arbitraries.doubles().between(0, 60).ofScale(3);
    Arbitrary<List<List<Double>>> unit =
        Combinators.combine(
                Arbitraries.integers().between(1, leds),
                Arbitraries.integers().between(1, pictures))
            .flatAs((size, count) -> current.list().ofSize(size).list().ofSize(count));
    return unit.list()
        .ofMinSize(leastUnits)
        .ofMaxSize(units)
        .flatMap(
            chosen -> {
              int end = chosen.stream().mapToInt(u -> u.get(0).size()).sum();
              return Arbitraries.integers()
                  .between(0, end)
                  .set()
                  .ofMinSize(1)
                  .ofMaxSize(Math.min(4, end + 1))
                  .map(feeds -> Line.of(chosen, feeds.stream().sorted().toList()));
            });
  }

  @Property(tries = 1000, seed = "1957")
  void no_choice_of_pictures_is_worse_for_any_led_feed_or_piece_and_one_is_as_bad(
      @ForAll("lines") Line line) {
    double[] most = new double[line.leds()];
    double[] led = new double[line.feeds().size()];
    double piece = 0;
    for (double[] loads : line.choices()) {
      Kirchhoff solved = Kirchhoff.solve(loads, line.ohms(), line.feeds());
      for (int i = 0; i < most.length; i++) {
        most[i] = Math.max(most[i], solved.drops()[i + 1]);
      }
      for (int i = 0; i < led.length; i++) {
        led[i] = Math.max(led[i], solved.led()[i]);
      }
      piece = Math.max(piece, Arrays.stream(solved.pieces()).map(Math::abs).max().orElse(0));
    }
    Flow flow = line.flow();
    for (int i = 0; i < most.length; i++) {
      assertThat(VOLTS - flow.volts(i)).isCloseTo(most[i], within(1e-9));
    }
    double worst = Arrays.stream(most).max().orElseThrow();
    assertThat(VOLTS - flow.leastVolts()).isCloseTo(worst, within(1e-9));
    assertThat(most[flow.worstLed()]).isCloseTo(worst, within(1e-9));
    for (int i = 0; i < led.length; i++) {
      assertThat(flow.feedAmps().get(i)).isCloseTo(led[i], within(1e-9));
    }
    assertThat(flow.mostAmps()).isCloseTo(piece, within(1e-9));
  }

  @Property(tries = 200, seed = "1957")
  void a_further_feed_never_lowers_any_voltage(
      @ForAll("longLinesOfOnePicture") Line line, @ForAll @IntRange(max = 50) int more) {
    Set<Integer> feeds = new TreeSet<>(line.feeds());
    feeds.add(more % (line.leds() + 1));
    Flow before = line.flow();
    Flow after = new Line(line.moments(), List.copyOf(feeds)).flow();
    for (int led = 0; led < line.leds(); led++) {
      assertThat(after.volts(led)).isGreaterThanOrEqualTo(before.volts(led) - 1e-12);
    }
  }

  @Property(tries = 200, seed = "1957")
  void what_is_led_in_together_is_what_is_drawn(@ForAll("longLinesOfOnePicture") Line line) {
    assertThat(line.flow().feedAmps().stream().mapToDouble(a -> a).sum())
        .isCloseTo(line.draw().milliamps() / 1000, within(1e-9));
  }

  /** Sums done by hand: 1 + 2 + … + 8 from one end, a quarter of it from both. */
  @Test
  void equal_loads_fed_from_one_end_lose_the_triangle_number_and_from_both_ends_a_quarter() {
    List<List<List<Double>>> equal = new ArrayList<>();
    for (int led = 0; led < 8; led++) {
      equal.add(List.of(List.of(10.0)));
    }
    Line one = Line.of(equal, List.of(0));
    double piece = 0.010 * one.ohms();
    assertThat(VOLTS - one.flow().leastVolts()).isCloseTo(36 * piece, within(1e-12));
    assertThat(one.flow().worstLed()).isEqualTo(7);
    assertThat(one.flow().mostAmps()).isCloseTo(0.080, within(1e-12));
    Line both = Line.of(equal, List.of(0, 8));
    assertThat(VOLTS - both.flow().volts(3)).isCloseTo(8 * piece, within(1e-12));
    assertThat(both.flow().worstLed()).isEqualTo(3);
    assertThat(both.flow().mostAmps()).isCloseTo(0.035, within(1e-12));
    assertThat(both.flow().feedAmps().get(0)).isCloseTo(0.035, within(1e-12));
    assertThat(both.flow().feedAmps().get(1)).isCloseTo(0.045, within(1e-12));
  }

  /**
   * One signal of two LEDs, 40 mA at the near one or 38 mA at the far one, between two feeds: one
   * picture is worst for the supply and the near feed, the other for the far feed.
   */
  @Test
  void each_feed_has_its_own_worst_picture() {
    Line line =
        Line.of(
            List.of(List.of(List.of(40.0, 0.0), List.of(0.0, 38.0)), List.of(List.of(0.0))),
            List.of(0, 3));
    assertThat(line.draw().milliamps()).isEqualTo(40);
    assertThat(line.flow().feedAmps().get(0)).isCloseTo(0.040 * 2 / 3, within(1e-12));
    assertThat(line.flow().feedAmps().get(1)).isCloseTo(0.038 * 2 / 3, within(1e-12));
  }

  private static double[] array(List<Double> numbers) {
    return numbers.stream().mapToDouble(d -> d).toArray();
  }

  private static Chain chain(int leds, List<Integer> feeds) {
    LedFamily family = LedFamily.named("one-wire-rgb-5050").orElseThrow();
    Part part = new Part("rgb", "GRB", family, new TreeMap<>(), 12, 0.6, 280, 3.7, 5.3, NOWHERE);
    return new Chain(
        "main", 0, part, 100, 100, leds, new Supply("", VOLTS, 2000), CABLE, feeds, NOWHERE);
  }
}
