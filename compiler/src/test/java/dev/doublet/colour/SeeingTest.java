package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Sizes, distances and limits; the tables stand in facts/colour. */
class SeeingTest {

  @ParameterizedTest(name = "1:{0}: {7}, {8}")
  @CsvFileSource(resources = "/facts/colour/lenses.csv", numLinesToSkip = 1)
  void modelLensesFillTheirAngles(
      double scale,
      double lens,
      double minutes,
      double colourWithin,
      double resolvedWithin,
      double spacing,
      double apartWithin,
      String mark,
      String source) {
    double size = Seeing.LENS / scale;
    assertThat(size).isCloseTo(lens, within(0.0051));
    assertThat(Seeing.angle(size, 1000)).isCloseTo(minutes, within(0.051));
    assertThat(Seeing.distance(size, Seeing.TRITAN_BELOW) / 1000)
        .isCloseTo(colourWithin, within(0.0051));
    assertThat(Seeing.distance(size, 1) / 1000).isCloseTo(resolvedWithin, within(0.051));
    assertThat(300 / scale).isCloseTo(spacing, within(0.0051));
    assertThat(Seeing.distance(300 / scale, Seeing.RESOLVED) / 1000)
        .isCloseTo(apartWithin, within(0.051));
  }

  @ParameterizedTest(name = "{0} m: {2}, {3}")
  @CsvFileSource(resources = "/facts/colour/gaps.csv", numLinesToSkip = 1)
  void smallestGapsAreKnown(double metres, double gap, String mark, String source) {
    assertThat(Seeing.size(Seeing.RESOLVED, 1000 * metres)).isCloseTo(gap, within(6e-4));
    assertThat(Seeing.angle(gap, 1000 * metres)).isCloseTo(1, within(0.01));
  }

  /** The printed formula is the threshold of seeing through air that lets 0.8 a mile through. */
  @ParameterizedTest(name = "{0} miles: {3}, {4}")
  @CsvFileSource(resources = "/facts/colour/luminous-range.csv", numLinesToSkip = 1)
  void lampsAreSeenAtNightAsFarAsPrinted(
      int miles, double candela, String printed, String mark, String source) {
    double metres = 1852.0 * miles;
    double needed = Seeing.NIGHT_THRESHOLD * metres * metres * Math.pow(0.8, -miles);
    assertThat(needed).isCloseTo(candela, within(0.006 * candela));
    assertThat(needed).isCloseTo(Double.parseDouble(printed), within(0.05 * candela));
  }

  /** COMPUTED: range never limits a model, glare does. */
  @Test
  void lampsLightTheEye() {
    assertThat(Seeing.illuminance(1, 2000)).isCloseTo(2.5e-4, within(1e-9));
    assertThat(Seeing.illuminance(405, 500)).isCloseTo(1.62, within(1e-9));
  }

  /** WCAG (SEEN); the areas COMPUTED. */
  @Test
  void oneLampIsSafeByAreaAndOnlyAPanelIsNot() {
    assertThat(Seeing.area(5, 1000)).isCloseTo(1.96e-5, within(1e-7));
    assertThat(Seeing.area(87, 1000)).isCloseTo(Seeing.SAFE_AREA, within(1e-4));
    assertThat(Seeing.SAFE_FLASHES).isEqualTo(3);
  }
}
