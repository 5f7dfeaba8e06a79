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

  /**
   * WCAG 2.2 (SEEN): 0.006 steradian within 10 degrees is safe; the page of fast-flash, COMPUTED.
   */
  @Test
  void onlyManyLampsOrNearOnesFlashOverMoreThanASafeArea() {
    double safe = 0.006;
    assertThat(area(5, 1000)).isCloseTo(1.96e-5, within(1e-7));
    assertThat(area(87, 1000)).isCloseTo(safe, within(1e-4));
    assertThat(Seeing.size(600, 1000)).isCloseTo(175, within(0.1));
    assertThat(Math.ceil(safe / area(2.45, 1000))).isEqualTo(1273);
    assertThat(Math.ceil(safe / area(2.45, 100))).isEqualTo(13);
    assertThat(7 * area(9.47, 280)).isGreaterThan(safe);
    assertThat(7 * area(9.47, 290)).isLessThan(safe);
  }

  /** The solid angle of a disc, in steradians; diameter and distance in mm. */
  private static double area(double diameter, double distance) {
    return Math.PI * diameter * diameter / (4 * distance * distance);
  }
}
