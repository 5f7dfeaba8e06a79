package dev.doublet.power;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.doublet.colour.Fade;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.SourceFile;
import dev.doublet.table.FadingReader;
import dev.doublet.table.Lowering;
import dev.doublet.table.TableFault;
import dev.doublet.table.TableReader;
import dev.doublet.table.TableWriter;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What lamps draw as they change, against every frame that a reader sends meanwhile. A die draws 20
 * mA, and an LED 1 mA at rest; red and green light one die, yellow two and lunar three.
 */
class PassingTest {
  private static final List<String> LOOKS =
      List.of("red", "yellow", "green", "lunar", "dark", "flashing yellow");

  private static final List<String> MAKES =
      List.of(
          "",
          "with filament",
          "with vane lunar",
          "with filament and vane lunar",
          "with filament and vane teal");

  private static final double[] ALIKE = {1, 1};

  @Test
  void a_middle_colour_that_draws_more_than_any_aspect_is_counted() {
    List<String> pictures = List.of("red over red", "green over green", "lunar over dark");
    assertThat(new Stand("", "", pictures).milliamps()).isEqualTo(61 + 1);
    assertThat(new Stand("with vane lunar", "", pictures).milliamps()).isEqualTo(61 + 21);
    assertThat(new Stand("with vane lunar", "with vane lunar", pictures).milliamps())
        .isEqualTo(2 * 61);
  }

  @Test
  void a_middle_colour_that_no_aspect_shows_is_counted_where_leds_can_be_driven_for_it() {
    List<String> pictures = List.of("red over red", "green over green");
    assertThat(new Stand("with vane lunar", "", pictures).milliamps()).isEqualTo(61 + 21);
    // Teal is no published colour, and the layout says no drive for it.
    assertThat(new Stand("with vane teal", "", pictures).milliamps()).isEqualTo(2 * 21);
    pictures = List.of("yellow over green", "green over yellow");
    assertThat(new Stand("with vane teal", "", pictures).milliamps()).isEqualTo(41 + 21);
  }

  @Test
  void an_old_light_whose_vane_has_not_moved_counts_beside_a_new_one_that_was_switched() {
    List<String> pictures = List.of("yellow over green", "green over yellow", "red over dark");
    assertThat(new Stand("", "", pictures).milliamps()).isEqualTo(41 + 21);
    assertThat(new Stand("with vane red", "", pictures).milliamps()).isEqualTo(2 * 41);
  }

  @Test
  void old_and_new_light_of_a_filament_are_never_more_than_one_whole_light() {
    for (int ms = 0; ms <= 600; ms++) {
      assertThat(Fade.RISE.level(ms) + Fade.FALL.level(ms)).isLessThanOrEqualTo(255);
    }
  }

  @Property(tries = 60, seed = "1957")
  void no_frame_weighs_more_than_the_pictures_counted(
      @ForAll @Size(6) List<@IntRange(max = 5) Integer> looks,
      @ForAll @IntRange(max = 4) int upper,
      @ForAll @IntRange(max = 4) int lower,
      @ForAll @DoubleRange(max = 1) double top,
      @ForAll @DoubleRange(max = 1) double bottom)
      throws TableFault {
    List<String> shown = looks.stream().map(LOOKS::get).toList();
    Stand stand =
        new Stand(
            MAKES.get(upper),
            MAKES.get(lower),
            List.of(
                shown.get(0) + " over " + shown.get(1),
                shown.get(2) + " over " + shown.get(3),
                shown.get(4) + " over " + shown.get(5)));
    double[] weights = {top, bottom};
    // Old and new light of each of six dies may each be rounded up by half of a step.
    assertThat(stand.heaviestFrame(weights))
        .isLessThanOrEqualTo(stand.counted(weights) + 6 * 20 / 255.0);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "red over red, green over green, red over green",
        "yellow over red, green over yellow, lunar over green",
        "yellow over yellow, green over green, yellow over green",
        "flashing yellow over green, green over yellow, red over flashing yellow"
      })
  void some_frame_of_swinging_vanes_weighs_as_much(String pictures) throws TableFault {
    for (String make : List.of("with vane lunar", "with vane red", "with vane yellow")) {
      Stand stand = new Stand(make, make, List.of(pictures.split(", ")));
      for (double[] weights : new double[][] {ALIKE, {1, 0.2}, {0.4, 1}}) {
        assertThat(stand.heaviestFrame(weights)).isCloseTo(stand.counted(weights), within(1e-9));
      }
    }
  }

  /** One signal of two heads. */
  private static final class Stand {
    private final Rulebook book;
    private final Controller controller;

    Stand(String upper, String lower, List<String> pictures) {
      StringBuilder text =
          new StringBuilder(
              """
              rulebook "Vanes" edition 1
              speeds in mph { normal 60 }
              colours { red yellow green lunar teal }
              rhythms { flashing 60 per minute }
              form high { top, bottom }
              """);
      String lamp = " { lamp main shows red, yellow, green, lunar, teal }\n";
      text.append("head upper ").append(upper).append(lamp);
      text.append("head lower ").append(lower).append(lamp);
      for (int i = 0; i < pictures.size(); i++) {
        text.append("aspect \"").append(i).append("\" { number ").append(i);
        text.append(" allows stop on high show ").append(pictures.get(i)).append(" }\n");
      }
      String layout =
          """
          layout: Vanes
          rulebook: book.aspects
          leds:
            rgb:
              milliamps: {channel: 20, rest: 1}
              colours: {red: [255, 0, 0], yellow: [255, 255, 0], green: [0, 255, 0], lunar: [255, 255, 255]}
          controllers:
            west: {flash: 9000, ram: 900, chains: {main: {signals: [
              {name: W1, form: high, heads: [upper, lower], by: aspect-number}]}}}
          """;
      Outcome<Layout> outcome =
          LayoutResolver.resolve(
              "layout.yaml",
              path -> new SourceFile(path, path.endsWith("yaml") ? layout : text.toString()));
      Layout made = outcome.value().orElseThrow(() -> new AssertionError(outcome.diagnostics()));
      this.book = made.rulebook();
      this.controller = made.controllers().get(0);
    }

    double milliamps() {
      return draw().milliamps();
    }

    /** The heaviest picture counted, each LED's milliamps times its weight. */
    double counted(double[] weights) {
      return draw().moments().stream()
          .flatMap(m -> m.get(0).pictures().stream())
          .mapToDouble(p -> weigh(p, weights))
          .max()
          .orElseThrow();
    }

    private Draw draw() {
      return Draw.of(book, controller, controller.chains().get(0));
    }

    /** The heaviest frame while the signal changes from each aspect to each other. */
    double heaviestFrame(double[] weights) throws TableFault {
      byte[] table = TableWriter.write(Lowering.lower(book, controller));
      Kind kind = controller.units().get(0).kind();
      double heaviest = 0;
      for (int from = 0; from < kind.states().size(); from++) {
        for (int to = 0; to < kind.states().size(); to++) {
          TableReader reader = TableReader.open(table);
          FadingReader fading = new FadingReader(reader);
          reader.extended(0, 4, kind.states().get(from).number(), 0);
          for (int ms = 0; ms < 1300; ms += 50) {
            fading.leds(0, ms);
          }
          reader.extended(0, 4, kind.states().get(to).number(), 1300);
          for (int ms = 1300; ms < 1900; ms += 5) {
            heaviest = Math.max(heaviest, weigh(milliamps(fading.leds(0, ms)), weights));
          }
        }
      }
      return heaviest;
    }

    private static double[] milliamps(byte[] sent) {
      double[] milliamps = {1, 1};
      for (int i = 0; i < sent.length; i++) {
        milliamps[i / 3] += (sent[i] & 0xFF) / 255.0 * 20;
      }
      return milliamps;
    }

    private static double weigh(double[] milliamps, double[] weights) {
      return milliamps[0] * weights[0] + milliamps[1] * weights[1];
    }
  }
}
