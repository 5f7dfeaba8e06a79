package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
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
    Xyz pure = Xyz.of(Spectrum.monochromatic(nm), 1 - whiteness);
    Xyz light = pure.plus(Xyz.of(Chromaticity.EQUAL_ENERGY, whiteness));
    Xyz once = eye.sees(light);
    Xyz twice = eye.sees(once);
    assertThat(twice.x()).isCloseTo(once.x(), within(1e-9));
    assertThat(twice.y()).isCloseTo(once.y(), within(1e-9));
    assertThat(twice.z()).isCloseTo(once.z(), within(1e-9));
  }

  /** A trap: such methods are for light, which adds, and not for numbers of a screen. */
  @Property(tries = 100, seed = "1957")
  void weakLightLooksLikeStrongLightAndMixturesLieBetween(
      @ForAll Eye eye,
      @ForAll @DoubleRange(min = 500, max = 640) double nm,
      @ForAll @DoubleRange(min = 0.01, max = 0.9) double part) {
    Xyz light = Xyz.of(Spectrum.monochromatic(nm), 1);
    Xyz seen = eye.sees(light);
    assertThat(eye.sees(light.times(part)).chromaticity().difference(seen.chromaticity()))
        .isLessThan(1e-12);
    Xyz mixed = light.times(part).plus(new Xyz(1 - part, 1 - part, 1 - part));
    Xyz sum = seen.times(part).plus(new Xyz(1 - part, 1 - part, 1 - part));
    assertThat(eye.sees(mixed).chromaticity().difference(sum.chromaticity())).isLessThan(1e-9);
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

  /**
   * The same method as others worked it out for screens: two matrices of linear red, green and blue
   * for each eye, and which of them is for a light. Screens are those of IEC 61966-2-1.
   */
  @ParameterizedTest
  @EnumSource(names = {"PROTAN", "DEUTAN", "TRITAN"})
  void screensLookAsPublishedMatricesSay(Eye eye) {
    List<Xyz> primaries =
        List.of(
            Xyz.of(new Chromaticity(0.64, 0.33), 0.2126729),
            Xyz.of(new Chromaticity(0.30, 0.60), 0.7151522),
            Xyz.of(new Chromaticity(0.15, 0.06), 0.0721750));
    Xyz white = mixed(primaries, 1, 1, 1);
    assertThat(white.chromaticity().distance(new Chromaticity(0.3127, 0.3290))).isLessThan(5e-5);
    Map<String, double[]> published = published(eye);
    Random random = new Random(1957);
    for (int i = 0; i < 1000; i++) {
      double[] rgb = {random.nextDouble(), random.nextDouble(), random.nextDouble()};
      String half = times(published.get("side"), rgb) >= 0 ? "first " : "second ";
      Xyz theirs =
          mixed(
              primaries,
              times(published.get(half + "red"), rgb),
              times(published.get(half + "green"), rgb),
              times(published.get(half + "blue"), rgb));
      Xyz ours = eye.sees(mixed(primaries, rgb), white);
      assertThat(ours.x()).isCloseTo(theirs.x(), within(2e-5));
      assertThat(ours.y()).isCloseTo(theirs.y(), within(2e-5));
      assertThat(ours.z()).isCloseTo(theirs.z(), within(2e-5));
    }
  }

  private static Map<String, double[]> published(Eye eye) {
    Map<String, double[]> parts = new HashMap<>();
    for (String line : lines("/facts/colour/brettel-screens.csv")) {
      String[] row = line.split(",");
      if (row[0].equals(eye.name())) {
        parts.put(
            row[1],
            new double[] {
              Double.parseDouble(row[2]), Double.parseDouble(row[3]), Double.parseDouble(row[4])
            });
      }
    }
    return parts;
  }

  private static List<String> lines(String resource) {
    try (InputStream in = EyeTest.class.getResourceAsStream(resource)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static double times(double[] row, double[] rgb) {
    return row[0] * rgb[0] + row[1] * rgb[1] + row[2] * rgb[2];
  }

  private static Xyz mixed(List<Xyz> primaries, double... rgb) {
    Xyz sum = Xyz.DARK;
    for (int i = 0; i < rgb.length; i++) {
      sum = sum.plus(primaries.get(i).times(rgb[i]));
    }
    return sum;
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
