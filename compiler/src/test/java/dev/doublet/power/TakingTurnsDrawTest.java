package dev.doublet.power;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Unit;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.table.FadingReader;
import dev.doublet.table.Lowering;
import dev.doublet.table.TableFault;
import dev.doublet.table.TableReader;
import dev.doublet.table.TableWriter;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * What signals with lamps that take turns draw together, against the frames of a reader: each
 * signal in the worst of its pictures, or on its way between the worst two, at every instant. A die
 * draws 20 mA, and an LED 1 mA at rest; red and green light one die, yellow two and lunar three.
 */
class TakingTurnsDrawTest {
  private static final List<String> COLOURS = List.of("red", "yellow", "green", "lunar");
  private static final List<String> SHARP = List.of("");
  private static final List<String> MAKES =
      List.of("", "with filament", "with vane red", "with filament and vane red");

  /** Periods of 200 and 100 ms, and 1,200 ms, in which filaments glow up and die away. */
  private static final String QUICK =
      """
      early 300 per minute lit 30 percent  late 300 per minute lit 40 percent starting dark
      short 600 per minute lit 20 percent  answer 600 per minute lit 50 percent starting dark
      """;

  private static final String SLOW =
      """
      early 50 per minute  late 50 per minute starting dark
      short 50 per minute lit 30 percent  answer 50 per minute lit 60 percent starting dark
      """;

  @Test
  void two_lamps_that_take_turns_draw_as_one() throws TableFault {
    for (String make : List.of("", "with filament")) {
      Line line = new Line(SLOW, List.of(make, make), List.of("early yellow over late yellow"));
      assertThat(line.draw().milliamps()).isEqualTo(41 + 1);
      assertThat(line.draw().milliampsOfEach()).containsExactly(41, 41);
      assertThat(line.heaviestFrame(new double[] {1, 1}, 1200)).isCloseTo(42, within(0.5));
    }
  }

  @Test
  void signals_that_take_turns_with_each_other_draw_as_the_larger() {
    Line line =
        new Line(SLOW, List.of("", ""), List.of("early yellow over dark", "dark over late lunar"));
    // Lunar and yellow never are lit at once, but lunar needs only one of the two commands.
    assertThat(line.draw().milliamps()).isEqualTo(61 + 1);
  }

  @Test
  void a_filament_dies_away_beside_a_lamp_that_switches() throws TableFault {
    Line line =
        new Line(SLOW, List.of("", "with filament"), List.of("early yellow over late yellow"));
    assertThat(line.draw().milliamps()).isEqualTo(2 * 41);
    assertThat(line.heaviestFrame(new double[] {1, 1}, 1200)).isCloseTo(82, within(0.5));
  }

  /** A rhythm of a colour gives way to another at once, while the lamp beside it dies away. */
  @Test
  void a_filament_that_keeps_its_colour_is_lit_beside_one_that_goes_out() throws TableFault {
    Line line =
        new Line(
            SLOW,
            List.of("with filament", "with filament"),
            List.of("early yellow over red", "yellow over dark"));
    assertThat(line.draw().milliamps()).isEqualTo(41 + 21);
    assertThat(line.heaviestFrame(new double[] {1, 1}, 1200)).isCloseTo(62, within(0.5));
    Line turned =
        new Line(
            SLOW,
            List.of("with filament", "with filament"),
            List.of("early yellow over late red", "late yellow over dark"));
    assertThat(turned.draw().milliamps()).isEqualTo(41 + 21);
    assertThat(turned.heaviestFrame(new double[] {1, 1}, 1200)).isCloseTo(62, within(0.5));
  }

  @Tag("slow")
  @Property(tries = 60, seed = "1957")
  void lamps_that_switch_draw_as_much_as_some_instant(@ForAll Random random) throws TableFault {
    Line line = random(random, QUICK, SHARP);
    double[] weights = weights(random);
    assertThat(line.heaviestFrame(weights, 200)).isCloseTo(line.counted(weights), within(1e-9));
  }

  @Tag("slow")
  @Property(tries = 60, seed = "1957")
  void lamps_that_glow_or_swing_never_draw_more_than_was_counted(@ForAll Random random)
      throws TableFault {
    for (String rhythms : List.of(QUICK, SLOW)) {
      Line line = random(random, rhythms, MAKES);
      double[] weights = weights(random);
      // Old and new light of each of twelve dies may each be rounded up by half of a step.
      assertThat(line.heaviestFrame(weights, rhythms.equals(QUICK) ? 200 : 1200))
          .isLessThanOrEqualTo(line.counted(weights) + 12 * 20 / 255.0);
    }
  }

  /** Two signals of two heads each, the second with the pictures of the first or with others. */
  private static Line random(Random random, String rhythms, List<String> makes) {
    List<String> heads =
        IntStream.range(0, 2).mapToObj(i -> makes.get(random.nextInt(makes.size()))).toList();
    List<String> pictures =
        IntStream.range(0, 3).mapToObj(i -> shown(random) + " over " + shown(random)).toList();
    return new Line(rhythms, heads, pictures, List.of(2, 1 + random.nextInt(3)));
  }

  private static String shown(Random random) {
    List<String> rhythms = List.of("", "early ", "late ", "short ", "answer ");
    return random.nextInt(8) == 0
        ? "dark"
        : rhythms.get(random.nextInt(5)) + COLOURS.get(random.nextInt(4));
  }

  private static double[] weights(Random random) {
    return random.doubles(4).toArray();
  }

  /** A chain of signals of the same two heads, each with the first so many of some pictures. */
  private static final class Line {
    private final Layout layout;
    private final Controller controller;

    Line(String rhythms, List<String> makes, List<String> pictures) {
      this(rhythms, makes, pictures, List.of(pictures.size()));
    }

    Line(String rhythms, List<String> makes, List<String> pictures, List<Integer> signals) {
      StringBuilder book =
          new StringBuilder(
              """
              rulebook "Turns" edition 1
              speeds in mph { normal 60 }
              colours { red yellow green lunar }
              form high { top, bottom }
              """);
      book.append("rhythms {\n").append(rhythms).append("}\n");
      String lamp = " { lamp main shows red, yellow, green, lunar }\n";
      book.append("head upper ").append(makes.get(0)).append(lamp);
      book.append("head lower ").append(makes.get(1)).append(lamp);
      for (int i = 0; i < pictures.size(); i++) {
        book.append("aspect \"A").append(i).append("\" { number ").append(i);
        book.append(" allows stop on high show ").append(pictures.get(i)).append(" }\n");
      }
      StringBuilder text =
          new StringBuilder(
              """
              layout: Turns
              rulebook: book.aspects
              leds:
                rgb:
                  milliamps: {channel: 20, rest: 1}
                  colours: {red: [255, 0, 0], yellow: [255, 255, 0], green: [0, 255, 0], lunar: [255, 255, 255]}
              controllers:
                west:
                  flash: 9000
                  ram: 900
                  chains:
                    main:
                      signals:
              """);
      for (int i = 0; i < signals.size(); i++) {
        List<String> aspects = IntStream.range(0, signals.get(i)).mapToObj(a -> "A" + a).toList();
        text.append("          - {name: W").append(i);
        text.append(", form: high, heads: [upper, lower], by: aspect-number, aspects: ");
        text.append(aspects).append("}\n");
      }
      Outcome<Layout> outcome =
          LayoutResolver.resolve(
              "layout.yaml",
              path -> new SourceFile(path, (path.endsWith("yaml") ? text : book).toString()));
      this.layout = outcome.value().orElseThrow(() -> new AssertionError(outcome.diagnostics()));
      this.controller = layout.controllers().get(0);
    }

    Draw draw() {
      return Draw.of(layout.rulebook(), controller, controller.chains().get(0));
    }

    double counted(double[] weights) {
      return draw().moments().stream()
          .mapToDouble(
              blocks ->
                  blocks.stream()
                      .mapToDouble(
                          b ->
                              b.pictures().stream()
                                  .mapToDouble(p -> weigh(p, b.first(), weights))
                                  .max()
                                  .orElseThrow())
                      .sum())
          .max()
          .orElseThrow();
    }

    /**
     * The heaviest frame at any instant of a period, where each signal was changed as is worst.
     *
     * @param around milliseconds in which all rhythms come round
     */
    double heaviestFrame(double[] weights, int around) throws TableFault {
      byte[] table = TableWriter.write(Lowering.lower(layout.rulebook(), controller));
      List<Unit> units = controller.units();
      double[][] most = new double[units.size()][around / STEP];
      int settled = 1200;
      for (int change = settled; change < settled + around; change += around / 10) {
        for (int pair = 0; pair < 9; pair++) {
          TableReader reader = TableReader.open(table);
          FadingReader fading = new FadingReader(reader);
          send(reader, units, pair / 3, 0);
          for (int ms = 0; ms < change; ms += 100) {
            fading.leds(0, ms);
          }
          send(reader, units, pair % 3, change);
          for (int ms = change; ms < change + 520 + around; ms += STEP) {
            double[] milliamps = milliamps(fading.leds(0, ms));
            for (int unit = 0; unit < units.size(); unit++) {
              int led = units.get(unit).led();
              double[] own = Arrays.copyOfRange(milliamps, led, led + 2);
              int at = ms % around / STEP;
              most[unit][at] = Math.max(most[unit][at], weigh(own, led, weights));
            }
          }
        }
      }
      return IntStream.range(0, around / STEP)
          .mapToDouble(at -> Arrays.stream(most).mapToDouble(m -> m[at]).sum())
          .max()
          .orElseThrow();
    }

    /** Divides every edge of the rhythms above. */
    private static final int STEP = 10;

    private static void send(TableReader reader, List<Unit> units, int state, long now) {
      for (Unit unit : units) {
        int number = unit.kind().states().get(state % unit.kind().states().size()).number();
        // Address 1 of a signal is 4 in a packet (NMRA S-9.2.1).
        reader.extended(0, unit.command().addresses().get(0) + 3, number, now);
      }
    }

    private static double[] milliamps(byte[] sent) {
      double[] milliamps =
          Collections.nCopies(sent.length / 3, 1.0).stream().mapToDouble(d -> d).toArray();
      for (int i = 0; i < sent.length; i++) {
        milliamps[i / 3] += (sent[i] & 0xFF) / 255.0 * 20;
      }
      return milliamps;
    }

    private static double weigh(double[] milliamps, int first, double[] weights) {
      double sum = 0;
      for (int led = 0; led < milliamps.length; led++) {
        sum += milliamps[led] * weights[(first + led) % weights.length];
      }
      return sum;
    }
  }
}
