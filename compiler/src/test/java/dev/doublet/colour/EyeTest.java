package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Colours as deficient eyes see them; the tables stand in facts/colour. */
class EyeTest {

  @ParameterizedTest(name = "{0} to {3}: {6}, {7}")
  @CsvFileSource(resources = "/facts/colour/simulated.csv", numLinesToSkip = 1)
  void coloursLookAsSimulated(
      String colour,
      double x,
      double y,
      Eye eye,
      double seenX,
      double seenY,
      String mark,
      String source) {
    Chromaticity seen = eye.sees(new Chromaticity(x, y));
    assertThat(seen.x()).isCloseTo(seenX, within(1e-4));
    assertThat(seen.y()).isCloseTo(seenY, within(1e-4));
  }

  @ParameterizedTest(name = "{0} and {3}: {10}, {11}")
  @CsvFileSource(resources = "/facts/colour/differences.csv", numLinesToSkip = 1)
  void differencesAreAsSimulated(
      String one,
      double x,
      double y,
      String other,
      double otherX,
      double otherY,
      double normal,
      double protan,
      double deutan,
      double tritan,
      String mark,
      String source) {
    Chromaticity a = new Chromaticity(x, y);
    Chromaticity b = new Chromaticity(otherX, otherY);
    assertThat(Eye.NORMAL.difference(a, b)).isCloseTo(normal, within(1e-4));
    assertThat(Eye.PROTAN.difference(a, b)).isCloseTo(protan, within(1e-4));
    assertThat(Eye.DEUTAN.difference(a, b)).isCloseTo(deutan, within(1e-4));
    assertThat(Eye.TRITAN.difference(a, b)).isCloseTo(tritan, within(1e-4));
  }

  @ParameterizedTest(name = "{0}: {4}, {5}")
  @CsvFileSource(resources = "/facts/colour/protan-brightness.csv", numLinesToSkip = 1)
  void redLooksDarkToProtans(
      String colour, double x, double y, double brightness, String mark, String source) {
    Chromaticity seen = new Chromaticity(x, y);
    assertThat(Eye.PROTAN.brightness(seen)).isCloseTo(brightness, within(6e-4));
    assertThat(Eye.DEUTAN.brightness(seen)).isEqualTo(1);
  }

  @ParameterizedTest
  @EnumSource(Eye.class)
  void whiteLooksWhiteToAll(Eye eye) {
    assertThat(eye.difference(Chromaticity.EQUAL_ENERGY, Chromaticity.EQUAL_ENERGY)).isZero();
    assertThat(eye.sees(Chromaticity.EQUAL_ENERGY).distance(Chromaticity.EQUAL_ENERGY))
        .isLessThan(1e-9);
  }

  /** What such eyes see holds nothing more for them to miss. */
  @Property(tries = 200, seed = "1957")
  void seeingTwiceIsSeeingOnce(
      @ForAll Eye eye,
      @ForAll @DoubleRange(min = 450, max = 640) double nm,
      @ForAll @DoubleRange(min = 0, max = 0.9) double whiteness) {
    Xyz pure = Xyz.of(Observer.monochromatic(nm), 1 - whiteness);
    Xyz light = pure.plus(Xyz.of(Chromaticity.EQUAL_ENERGY, whiteness));
    Xyz once = eye.sees(light);
    Xyz twice = eye.sees(once);
    assertThat(twice.x()).isCloseTo(once.x(), within(1e-9));
    assertThat(twice.y()).isCloseTo(once.y(), within(1e-9));
    assertThat(twice.z()).isCloseTo(once.z(), within(1e-9));
  }

  /**
   * A trap: two cone matrices must not be mixed. The missing cone's direction in x and y (the
   * copunctal point) belongs to the matrix; two lights on a line through it look alike. COMPUTED
   * for Smith and Pokorny: (0.7465,0.2535), (1.3999,-0.3999), (0.1748,0).
   */
  @Property(tries = 100, seed = "1957")
  void coloursOnALineThroughTheMissingConeLookAlike(
      @ForAll @DoubleRange(min = 0.25, max = 0.45) double x,
      @ForAll @DoubleRange(min = 0.25, max = 0.45) double y,
      @ForAll @DoubleRange(min = 0.02, max = 0.2) double part) {
    alike(Eye.PROTAN, new Chromaticity(x, y), new Chromaticity(0.7465, 0.2535), part);
    alike(Eye.DEUTAN, new Chromaticity(x, y), new Chromaticity(1.3999, -0.3999), part);
    alike(Eye.TRITAN, new Chromaticity(x, y), new Chromaticity(0.1748, 0.0000), part);
  }

  private static void alike(Eye eye, Chromaticity one, Chromaticity towards, double part) {
    Chromaticity other =
        new Chromaticity(
            one.x() + part * (towards.x() - one.x()), one.y() + part * (towards.y() - one.y()));
    assertThat(eye.difference(one, other)).as("%s %s", eye, one).isLessThan(5e-4);
  }

  /** Red and yellow are one hue to four men in a hundred, and blue in green helps them. */
  @Test
  void blueInGreenKeepsItFromYellow() {
    Chromaticity yellow = new Chromaticity(0.58, 0.4045);
    Chromaticity pure = new Chromaticity(0.1338, 0.7618);
    Chromaticity bluish = new Chromaticity(0.1343, 0.5518);
    assertThat(Eye.PROTAN.difference(yellow, pure)).isLessThan(Seeing.SAME);
    assertThat(Eye.PROTAN.difference(yellow, bluish)).isGreaterThan(Seeing.APART);
  }
}
