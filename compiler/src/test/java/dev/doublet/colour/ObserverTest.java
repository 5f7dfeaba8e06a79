package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Colours of wavelengths, bell spectra and glowing bodies; the tables stand in facts/colour. */
class ObserverTest {

  @ParameterizedTest(name = "{0} nm: {5}, {6}")
  @CsvFileSource(resources = "/facts/colour/monochromatic.csv", numLinesToSkip = 1)
  void wavelengthsHaveTheirColours(
      double nm, double x, double y, double u, double v, String mark, String source) {
    Chromaticity colour = Spectrum.monochromatic(nm);
    assertThat(colour.x()).isCloseTo(x, within(6e-5));
    assertThat(colour.y()).isCloseTo(y, within(6e-5));
    assertThat(colour.u()).isCloseTo(u, within(6e-5));
    assertThat(colour.v()).isCloseTo(v, within(6e-5));
  }

  /** CIE 1976: the formula's own check values, COMPUTED. */
  @Test
  void uniformCoordinatesFollowTheirFormula() {
    assertThat(Chromaticity.EQUAL_ENERGY.u()).isCloseTo(0.2105, within(5e-5));
    assertThat(Chromaticity.EQUAL_ENERGY.v()).isCloseTo(0.4737, within(5e-5));
    assertThat(new Chromaticity(0.3127, 0.3290).u()).isCloseTo(0.1978, within(5e-5));
    assertThat(new Chromaticity(0.3127, 0.3290).v()).isCloseTo(0.4683, within(5e-5));
  }

  /** The table's far end is a continuation, so red hot bodies show whether it is a good one. */
  @ParameterizedTest(name = "{0} K: {4}, {5}")
  @CsvFileSource(resources = "/facts/colour/planck.csv", numLinesToSkip = 1)
  void glowingBodiesHaveTheirColoursAndLight(
      double kelvin, double x, double y, Double light, String mark, String source) {
    assertThat(Planck.look(kelvin).chromaticity().x()).isCloseTo(x, within(1.1e-4));
    assertThat(Planck.look(kelvin).chromaticity().y()).isCloseTo(y, within(1.1e-4));
    if (light != null) {
      assertThat(Planck.light(kelvin)).isCloseTo(light, within(0.02 * light));
    }
  }

  /** A trap: dominant is not peak wavelength. LED L1 of the facts is such a green, COMPUTED. */
  @Test
  void aBroadGreenIsFarFromThePureOneOfItsDominantWavelength() {
    Chromaticity green = Spectrum.dominant(523.5, 33);
    assertThat(green.x()).isCloseTo(0.1338, within(5e-4));
    assertThat(green.y()).isCloseTo(0.7618, within(5e-4));
    assertThat(Spectrum.monochromatic(523.5).distance(green)).isGreaterThan(0.07);
    assertThat(Spectrum.bell(523.5, 33).distance(green)).isGreaterThan(0.003);
  }

  /**
   * The table read by another rule (four points at a time, as CIE 15 allows), whose curve bows out
   * by up to 0.0041 between the wavelengths of ours.
   */
  @Test
  void everyPureColourAndEveryPurpleIsOfLightAndLittleBeyondThemIs() {
    List<Chromaticity> curve = new ArrayList<>();
    for (double nm = 385; nm <= 695; nm += 0.25) {
      curve.add(cubic(nm));
    }
    double bow =
        curve.stream().mapToDouble(c -> -Outline.rim().margin(c.x(), c.y())).max().orElseThrow();
    assertThat(bow).isBetween(0.004, 0.0045);
    for (double part = 0; part <= 1; part += 0.01) {
      curve.add(between(Spectrum.monochromatic(380), Spectrum.monochromatic(700), part));
    }
    for (Chromaticity pure : curve) {
      assertThat(pure.isOfLight()).as("%s", pure).isTrue();
      assertThat(between(Chromaticity.EQUAL_ENERGY, pure, 0.9).isOfLight()).isTrue();
      Chromaticity beyond =
          between(
              Chromaticity.EQUAL_ENERGY,
              pure,
              1 + 0.012 / pure.distance(Chromaticity.EQUAL_ENERGY));
      assertThat(beyond.isOfLight()).as("%s", beyond).isFalse();
    }
  }

  private static Chromaticity cubic(double nm) {
    int first = Math.min((int) (nm - 385) / 5 * 5 + 380, 685);
    Xyz sum = Xyz.DARK;
    for (int i = 0; i < 4; i++) {
      double weight = 1;
      for (int j = 0; j < 4; j++) {
        weight *= i == j ? 1 : (nm - first - 5 * j) / (5.0 * (i - j));
      }
      sum = sum.plus(Observer.at(first + 5 * i).times(weight));
    }
    return sum.chromaticity();
  }

  private static Chromaticity between(Chromaticity from, Chromaticity to, double part) {
    return new Chromaticity(
        from.x() + part * (to.x() - from.x()), from.y() + part * (to.y() - from.y()));
  }

  @Property(tries = 60, seed = "1957")
  void aDominantWavelengthLiesOnTheLineFromWhiteThroughTheColour(
      @ForAll @DoubleRange(min = 455, max = 640) double nm,
      @ForAll @DoubleRange(min = 5, max = 40) double halfWidth) {
    Chromaticity pure = Spectrum.monochromatic(nm);
    Chromaticity broad = Spectrum.dominant(nm, halfWidth);
    Chromaticity white = Chromaticity.EQUAL_ENERGY;
    double off =
        ((pure.x() - white.x()) * (broad.y() - white.y())
                - (pure.y() - white.y()) * (broad.x() - white.x()))
            / pure.distance(white);
    assertThat(off).isCloseTo(0, within(1e-6));
    assertThat(broad.distance(white)).isLessThanOrEqualTo(pure.distance(white) + 1e-4);
  }
}
