package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** LEDs and what their drives look like; the tables stand in facts/colour. */
class LedFamilyTest {
  private static final LedFamily L1 =
      family(
          new Chromaticity(0.6957, 0.3041),
          new Chromaticity(0.1338, 0.7618),
          new Chromaticity(0.1355, 0.0456));

  private static LedFamily family(Chromaticity red, Chromaticity green, Chromaticity blue) {
    return new LedFamily(
        "measured",
        List.of(
            Die.measured(Channel.RED, red, 405),
            Die.measured(Channel.GREEN, green, 690),
            Die.measured(Channel.BLUE, blue, 190)));
  }

  @ParameterizedTest(name = "{0},{1} = {5}: {9}, {10}")
  @CsvFileSource(resources = "/facts/colour/drives.csv", numLinesToSkip = 1)
  void drivesMixToTheKnownLight(
      double x,
      double y,
      double red,
      double green,
      double blue,
      String levels,
      double seenX,
      double seenY,
      double mcd,
      String mark,
      String source) {
    Drive drive = new Drive(Arrays.stream(levels.split(",")).map(Integer::valueOf).toList());
    Xyz seen = L1.light(drive);
    assertThat(seen.chromaticity().x()).isCloseTo(seenX, within(6e-5));
    assertThat(seen.chromaticity().y()).isCloseTo(seenY, within(6e-5));
    assertThat(seen.y()).isCloseTo(mcd, within(1.0));
    Xyz exact =
        L1.dies()
            .get(0)
            .middle()
            .times(red)
            .plus(L1.dies().get(1).middle().times(green))
            .plus(L1.dies().get(2).middle().times(blue));
    assertThat(exact.chromaticity().distance(new Chromaticity(x, y))).isLessThan(1.5e-4);
  }

  /** A trap: all channels full is far from every white. COMPUTED. */
  @Test
  void allChannelsFullIsNoWhite() {
    Xyz seen = L1.light(Drive.of(255, 255, 255));
    assertThat(seen.chromaticity().x()).isCloseTo(0.2518, within(6e-5));
    assertThat(seen.chromaticity().y()).isCloseTo(0.2006, within(6e-5));
    assertThat(seen.y()).isCloseTo(1285, within(0.5));
    for (RegionSet set : RegionSet.published()) {
      assertThat(set.region("white").stream())
          .noneMatch(white -> white.contains(seen.chromaticity()));
    }
  }

  @ParameterizedTest(name = "{0} {1} {2} from {3} to {4}: {5}, {6}")
  @CsvFileSource(resources = "/facts/colour/windows.csv", numLinesToSkip = 1)
  void windowsOfTheSecondChannelAreKnown(
      String led,
      String set,
      String colour,
      Integer first,
      Integer last,
      String mark,
      String source) {
    LedFamily family = L1;
    if (!led.equals("L1")) {
      double[] nm = Arrays.stream(led.split("/")).mapToDouble(Double::parseDouble).toArray();
      family =
          family(
              Spectrum.monochromatic(nm[0]),
              Spectrum.monochromatic(nm[1]),
              Spectrum.monochromatic(nm[2]));
    }
    Region region = RegionSet.named(set).orElseThrow().region(colour).orElseThrow();
    DriveSolver solver = new DriveSolver(family);
    List<Integer> inside =
        IntStream.rangeClosed(0, 255)
            .filter(
                i ->
                    solver.margin(
                            colour.equals("yellow") ? Drive.of(255, i, 0) : Drive.of(0, 255, i),
                            region)
                        >= 0)
            .boxed()
            .toList();
    if (first == null) {
      assertThat(inside).isEmpty();
      return;
    }
    // The known ends of pure light took its colours to four digits, and left out light on the rim.
    int slack = led.equals("L1") ? 0 : 1;
    assertThat(inside.get(0)).isCloseTo(first, within(slack));
    assertThat(inside.get(inside.size() - 1)).isCloseTo(last, within(slack));
    assertThat(inside).hasSize(inside.get(inside.size() - 1) - inside.get(0) + 1);
  }

  /** The ratio of green to red runs from 1.6 to 4.5: primaries belong to the part. SECONDARY. */
  @Test
  void familiesDifferSoMuchThatNoDriveFitsAll() {
    assertThat(LedFamily.published()).hasSizeGreaterThanOrEqualTo(4);
    double[] ratios =
        LedFamily.published().stream()
            .mapToDouble(f -> f.dies().get(1).middle().y() / f.dies().get(0).middle().y())
            .toArray();
    assertThat(Arrays.stream(ratios).min().orElseThrow()).isLessThan(1.8);
    assertThat(Arrays.stream(ratios).max().orElseThrow()).isGreaterThan(4);
  }

  /** Their whites at full drive, by the same data sheets: 2300, 1710, 790, 630 mcd. SECONDARY. */
  @Test
  void intensitiesAddUpToTheDataSheetsWhite() {
    assertThat(white("one-wire-rgb-5050-bright")).isCloseTo(2300, within(5.0));
    assertThat(white("one-wire-rgb-5050-backup")).isCloseTo(1730, within(25.0));
    assertThat(white("one-wire-rgb-5050-5ma")).isCloseTo(790, within(5.0));
    assertThat(white("one-wire-rgb-5050-5ma-dim")).isCloseTo(630, within(5.0));
  }

  private static double white(String family) {
    return LedFamily.named(family).orElseThrow().light(Drive.of(255, 255, 255)).y();
  }

  @Test
  void aMeasurementTakesThePlaceOfTheBins() {
    LedFamily family = LedFamily.named("one-wire-rgb-5050").orElseThrow();
    Chromaticity seen = new Chromaticity(0.70, 0.29);
    LedFamily measured = family.with(Die.measured(Channel.RED, seen, 333));
    assertThat(measured.dies().get(0).corners()).containsExactly(Xyz.of(seen, 333));
    assertThat(measured.dies().subList(1, 3)).isEqualTo(family.dies().subList(1, 3));
    assertThat(measured.light(Drive.of(255, 0, 0)).chromaticity().distance(seen)).isLessThan(1e-12);
  }

  @Test
  void figuresThatNoLampCanHaveAreRefused() {
    assertThatThrownBy(() -> Die.measured(Channel.RED, new Chromaticity(0.7, 0.3), 0))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Die.measured(Channel.RED, new Chromaticity(0.7, 0), 100))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Observer.at(300))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("300");
  }
}
