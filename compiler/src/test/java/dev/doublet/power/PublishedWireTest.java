package dev.doublet.power;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.doublet.check.budget.ShortestChange;
import dev.doublet.colour.LedFamily;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Part;
import dev.doublet.layout.Supply;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

/** Figures that others have published, and sums done with them. */
class PublishedWireTest {
  private static final Span NOWHERE = new SourceFile("layout.yaml", "").span(0, 0);

  /** Ohms per 1000 ft as the wire table of hyperphysics.gsu.edu prints them, after Floyd. */
  @ParameterizedTest
  @CsvSource({"22, 16.14", "24, 25.67", "26, 40.81", "28, 64.90"})
  void resistance_by_gauge_is_that_of_the_published_table(int gauge, double ohmsPerThousandFeet) {
    double perMetre = ohmsPerThousandFeet / 304.8;
    assertThat(Cable.ofGauge(gauge, 1).ohmsPerMetre())
        .isCloseTo(perMetre, within(perMetre * 0.0005));
  }

  /** ASTM B258: AWG 36 is 0.005 in thick, AWG 0000 0.46 in; so AWG 10 is 5.26 mm². */
  @ParameterizedTest
  @CsvSource({"10, 5.261", "18, 0.823", "24, 0.2047", "30, 0.0509"})
  void cross_sections_are_those_of_the_standard(int gauge, double squareMillimetres) {
    assertThat(Cable.ofGauge(gauge, 1).squareMillimetres())
        .isCloseTo(squareMillimetres, within(squareMillimetres * 0.002));
  }

  /** IEC 60028: one metre of 1 mm² has 0.017241 ohm. */
  @Test
  void copper_is_standard_copper() {
    assertThat(Cable.ofArea(1, 1).ohmsPerMetre()).isEqualTo(0.017241);
  }

  /**
   * Sixteen LEDs of 12 mA a channel and 0.6 mA at rest (a maker's sheet of 2019) draw 585.6 mA full
   * white, and at the end of 2 m of AWG 24 lose 0.197 V.
   */
  @Test
  void sixteen_white_leds_at_the_end_of_two_metres_lose_a_fifth_of_a_volt() {
    double all = 16 * (3 * 12 + 0.6);
    assertThat(all).isCloseTo(585.6, within(1e-9));
    Flow flow = Flow.of(chain(1, Cable.ofGauge(24, 2)), draw(all)).orElseThrow();
    assertThat(5 - flow.leastVolts()).isCloseTo(0.197, within(0.0005));
    assertThat(flow.leastVolts()).isCloseTo(4.803, within(0.0005));
  }

  /** Spread along the cable they lose (n + 1) / 2n of that. */
  @Test
  void sixteen_white_leds_along_the_same_cable_lose_half_of_it() {
    double[] each = new double[16];
    Arrays.fill(each, 36.6);
    Flow flow = Flow.of(chain(16, Cable.ofGauge(24, 2)), draw(each)).orElseThrow();
    assertThat(5 - flow.leastVolts()).isCloseTo(0.197 * 17 / 32, within(0.0005));
    assertThat(flow.worstLed()).isEqualTo(15);
    assertThat(flow.mostAmps()).isCloseTo(0.5856, within(1e-9));
  }

  @Test
  void what_is_led_in_at_the_feeds_together_is_what_the_leds_draw() {
    double[] each = new double[16];
    Arrays.fill(each, 36.6);
    each[3] = 1;
    Chain fed = chain(16, Cable.ofGauge(24, 2));
    for (List<Integer> feeds : List.of(List.of(0), List.of(16), List.of(0, 7, 16), List.of(4))) {
      Chain chain =
          new Chain("main", 0, fed.part(), 100, 100, 16, fed.supply(), fed.cable(), feeds, NOWHERE);
      List<Double> amps = Flow.of(chain, draw(each)).orElseThrow().feedAmps();
      assertThat(amps).hasSameSizeAs(feeds).allMatch(a -> a >= 0);
      assertThat(amps.stream().mapToDouble(a -> a).sum()).isCloseTo(0.55, within(1e-9));
    }
  }

  @Test
  void fuses_last_at_the_current_and_never_exceed_what_the_wire_bears() {
    Cable thin = Cable.ofGauge(28, 1);
    assertThat(Wire.bears(thin)).isEqualTo(1.4);
    assertThat(Wire.fuse(thin, 0.5)).hasValue(0.8);
    assertThat(Wire.fuse(thin, 0.93)).hasValue(1.25);
    assertThat(Wire.fuse(thin, 1.0)).isEmpty();
    assertThat(Wire.bears(Cable.ofArea(0.25, 1))).isEqualTo(3.5);
    assertThat(Wire.bears(Cable.ofArea(0.2, 1))).isEqualTo(2.2);
    assertThat(Wire.bears(Cable.ofArea(6, 1))).isEqualTo(16);
    assertThat(Wire.bears(Cable.ofArea(0.05, 1))).isEqualTo(0.86);
  }

  /**
   * The column for chassis wiring of the same book; a gauge between two is taken as the thinner.
   */
  @ParameterizedTest
  @CsvSource({
    "10, 16", "11, 16", "12, 16", "13, 16", "14, 16", "15, 16", "16, 16", "17, 16", "18, 16",
    "19, 11", "20, 11", "21, 7", "22, 7", "23, 3.5", "24, 3.5", "25, 2.2", "26, 2.2", "27, 1.4",
    "28, 1.4", "29, 0.86", "30, 0.86"
  })
  void every_gauge_bears_what_the_next_thinner_one_of_the_table_does(int gauge, double amps) {
    assertThat(Wire.bears(Cable.ofGauge(gauge, 1))).isEqualTo(amps);
  }

  /**
   * The column for power transmission of the Handbook of Electronic Tables and Formulas, 700
   * circular mils an ampere, beside that for chassis wiring: about a sixth of it.
   */
  @ParameterizedTest
  @CsvSource({"18, 2.3", "20, 1.5", "22, 0.92", "24, 0.577", "26, 0.361", "28, 0.226", "30, 0.142"})
  void a_bundle_or_a_long_run_bears_a_sixth(int gauge, double amps) {
    Cable cable = Cable.ofGauge(gauge, 1);
    assertThat(Wire.bearsBundled(cable)).isCloseTo(amps, within(amps * 0.03));
    assertThat(Wire.bears(cable) / Wire.bearsBundled(cable)).isBetween(5.9, 7.7);
  }

  /** Three bytes an LED at 1.25 µs a bit, and a rest of 280 µs: arithmetic on makers' sheets. */
  @ParameterizedTest
  @CsvSource({"8, 520", "16, 760", "64, 2200", "100, 3280"})
  void refresh_times_are_those_of_the_data_sheets(int leds, double micros) {
    assertThat(chain(leds, Cable.UNSAID).refreshMicros()).isEqualTo(micros);
  }

  /** A lamp has gone out for the eye at a tenth of its light. */
  @ParameterizedTest
  @CsvFileSource(resources = "/facts/colour/fade.csv", numLinesToSkip = 1)
  void a_filament_goes_out_when_the_model_says(int millis, double rise, double fall) {
    assertThat(millis < ShortestChange.fade()).isEqualTo(fall > 0.1);
  }

  private static Draw draw(double... milliamps) {
    return new Draw(List.of(List.of(new Draw.Block(0, List.of(milliamps)))));
  }

  private static Chain chain(int leds, Cable cable) {
    LedFamily family = LedFamily.named("one-wire-rgb-5050").orElseThrow();
    Part part = new Part("rgb", "GRB", family, new TreeMap<>(), 12, 0.6, 280, 3.7, 5.3, NOWHERE);
    Supply supply = new Supply("", 5, 2000);
    return new Chain("main", 0, part, 100, 100, leds, supply, cable, List.of(0), NOWHERE);
  }
}
