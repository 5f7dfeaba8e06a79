package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

/** Drives for published colours, against exhaustive searches and LEDs taken from the bins. */
class DriveSolverTest {
  private static final LedFamily RGB = LedFamily.named("one-wire-rgb-5050").orElseThrow();
  private static final LedFamily RGBW =
      LedFamily.named("one-wire-rgbw-5050-white-6500k").orElseThrow();

  @Provide
  Arbitrary<LedFamily> families() {
    Arbitrary<Die> red = die(Channel.RED, 612, 632, 100, 500);
    Arbitrary<Die> green = die(Channel.GREEN, 515, 530, 300, 1500);
    Arbitrary<Die> blue = die(Channel.BLUE, 460, 475, 50, 350);
    return Combinators.combine(red, green, blue)
        .as((r, g, b) -> new LedFamily("any", List.of(r, g, b)));
  }

  private static Arbitrary<Die> die(
      Channel channel, double lowNm, double highNm, double lowMcd, double highMcd) {
    return Combinators.combine(
            Arbitraries.doubles().between(lowNm, highNm),
            Arbitraries.doubles().between(0, 5),
            Arbitraries.doubles().between(lowMcd, highMcd),
            Arbitraries.doubles().between(1, 1.3))
        .as(
            (nm, spread, mcd, ratio) ->
                Spectrum.die(channel, nm, nm + spread, 20, mcd, mcd * ratio, "any"));
  }

  @Provide
  Arbitrary<Region> regions() {
    return Arbitraries.of(
        RegionSet.published().stream().flatMap(set -> set.regions().stream()).toList());
  }

  /** The oracle tries a grid of drives and adds up light die by die. */
  @Property(tries = 30, seed = "1957")
  void noDriveOfACoarseGridIsDeeperInside(
      @ForAll("families") LedFamily family, @ForAll("regions") Region region) {
    double deepest = Double.NEGATIVE_INFINITY;
    for (int a = 0; a <= 255; a += 15) {
      for (int b = 0; b <= 255; b += 15) {
        deepest = Math.max(deepest, worst(family, region, 255, a, b));
        deepest = Math.max(deepest, worst(family, region, a, 255, b));
        deepest = Math.max(deepest, worst(family, region, a, b, 255));
      }
    }
    DriveSearch.Candidate found = new DriveSearch(family, region).best(List.of(0, 1, 2));
    assertThat(found.margin()).isGreaterThanOrEqualTo(deepest - 1e-9);
    Drive drive = found.drive();
    assertThat(worst(family, region, drive.level(0), drive.level(1), drive.level(2)))
        .isCloseTo(found.margin(), within(1e-9));
  }

  private static double worst(LedFamily family, Region region, int r, int g, int b) {
    double worst = Double.POSITIVE_INFINITY;
    for (Xyz red : family.dies().get(0).corners()) {
      for (Xyz green : family.dies().get(1).corners()) {
        Xyz both = red.times(r).plus(green.times(g));
        for (Xyz blue : family.dies().get(2).corners()) {
          worst = Math.min(worst, region.margin(both.plus(blue.times(b)).chromaticity()));
        }
      }
    }
    return worst;
  }

  /** Two dies alone are few enough to try every drive. */
  @Property(tries = 60, seed = "1957")
  void ofTwoDiesTheVeryBestDriveIsFound(
      @ForAll("families") LedFamily family, @ForAll("regions") Region region) {
    double deepest = Double.NEGATIVE_INFINITY;
    for (int level = 0; level <= 255; level++) {
      deepest = Math.max(deepest, worst(family, region, 0, 255, level));
      deepest = Math.max(deepest, worst(family, region, 0, level, 255));
    }
    assertThat(new DriveSearch(family, region).best(List.of(1, 2)).margin())
        .isCloseTo(deepest, within(1e-12));
  }

  /** Around the summit every neighbour within three levels of each die is tried. */
  @Test
  void noNearDriveIsDeeperInside() {
    for (String colour : List.of("white", "lunar", "warm-white")) {
      Region region = region("marine", colour);
      DriveSearch.Candidate found = new DriveSearch(RGB, region).best(List.of(0, 1, 2));
      Drive d = found.drive();
      for (int r = Math.max(0, d.level(0) - 3); r <= Math.min(255, d.level(0) + 3); r++) {
        for (int g = Math.max(0, d.level(1) - 3); g <= Math.min(255, d.level(1) + 3); g++) {
          for (int b = Math.max(0, d.level(2) - 3); b <= Math.min(255, d.level(2) + 3); b++) {
            if (Math.max(r, Math.max(g, b)) == 255) {
              assertThat(worst(RGB, region, r, g, b)).isLessThanOrEqualTo(found.margin() + 1e-9);
            }
          }
        }
      }
    }
  }

  /** The corners of the bins must speak for every LED between them. */
  @Test
  void plainWhiteIsNotWarm() {
    for (LedFamily family : LedFamily.published()) {
      for (RegionSet set : RegionSet.published()) {
        new DriveSolver(family)
            .closest("white", set)
            .map(drive -> family.light(drive).chromaticity())
            .ifPresent(light -> assertThat(light.x()).isLessThan(RegionSet.WARM_ABOVE));
      }
    }
  }

  @Test
  void everyLedOfTheBinsLiesInside() {
    Random random = new Random(1);
    List<LedFamily> leds = Stream.generate(() -> oneOfTheBins(random)).limit(40).toList();
    for (RegionSet set : RegionSet.published()) {
      for (String colour : set.colours()) {
        if (new DriveSolver(RGB).solve(colour, set) instanceof DriveAnswer.Reached reached) {
          assertThat(leds)
              .as("%s %s", set.name(), colour)
              .allMatch(
                  led ->
                      reached.region().margin(led.light(reached.drive()).chromaticity())
                          >= Math.max(0, reached.margin() - 2e-4));
        }
      }
    }
  }

  private static LedFamily oneOfTheBins(Random random) {
    return new LedFamily(
        "one",
        List.of(
            oneOf(random, Channel.RED, 620, 625, 18, 390, 420),
            oneOf(random, Channel.GREEN, 522, 525, 33, 660, 720),
            oneOf(random, Channel.BLUE, 465, 467, 22, 180, 200)));
  }

  private static Die oneOf(
      Random random,
      Channel channel,
      double low,
      double high,
      double width,
      double dim,
      double bright) {
    double nm = low + (high - low) * random.nextDouble();
    double mcd = dim + (bright - dim) * random.nextDouble();
    return Spectrum.die(channel, nm, nm, width, mcd, mcd, "one");
  }

  @Test
  void redIsTheRedDieAloneAndGreenNeedsBlue() {
    assertThat(reached(RGB, "red", "marine").drive()).isEqualTo(Drive.of(255, 0, 0));
    assertThat(reached(RGB, "red", "marine").closest()).contains(Drive.of(255, 0, 0));
    Drive green = reached(RGB, "green", "marine").drive();
    assertThat(green.level(0)).isZero();
    assertThat(green.level(1)).isEqualTo(255);
    // The published windows of all bins together: 17 to 53, COMPUTED.
    assertThat(green.level(2)).isBetween(17, 53);
    assertThat(
            RegionSet.published().stream()
                .filter(set -> set.region("green").isPresent())
                .filter(set -> new DriveSolver(RGB).margin(green, set.region("green").get()) >= 0))
        .extracting(RegionSet::name)
        .containsExactly(
            "marine",
            "aerodrome",
            "aerodrome-led",
            "road",
            "road-narrow",
            "road-americas",
            "aircraft");
    assertThat(new DriveSolver(RGB).margin(green, region("aerodrome", "green-deficient")))
        .isPositive();
  }

  @Test
  void aWhiteDieAloneMakesLunarWhere3DiesWouldDo() {
    assertThat(reached(RGBW, "lunar", "aerodrome").drive()).isEqualTo(Drive.of(0, 0, 0, 255));
    assertThat(reached(RGBW, "lunar", "marine").drive().lit()).isEqualTo(2);
    assertThat(new DriveSolver(RGBW).solve("warm-white", RegionSet.named("marine").orElseThrow()))
        .isInstanceOf(DriveAnswer.OutOfReach.class);
  }

  /** Broad green makes mixed yellow too pale: no bin-proof drive exists, and that is said. */
  @Test
  void yellowOfBinnedLedsIsOutOfReachButTheMiddleOfTheBinsMeetsLedAndRoadRegions() {
    DriveAnswer.OutOfReach answer =
        (DriveAnswer.OutOfReach)
            new DriveSolver(RGB).solve("yellow", RegionSet.named("marine").orElseThrow());
    assertThat(answer.nearest().level(0)).isEqualTo(255);
    assertThat(answer.nearest().level(1)).isBetween(80, 110);
    assertThat(answer.nearest().level(2)).isZero();
    assertThat(answer.shortfall()).isBetween(0.005, 0.01);
    assertThat(answer.instead()).isEmpty();
    assertThat(answer.middle())
        .extracting(DriveAnswer.Reached::set)
        .contains("aerodrome-led", "road")
        .doesNotContain("marine", "road-americas");
    assertThat(answer.closest()).contains(answer.middle().get(0).drive());
  }

  @Test
  void aMeasuredLedReachesYellowWhereItsBinsDidNot() {
    assertThat(reached(RGB.middle(), "amber", "road").drive().level(1)).isBetween(83, 87);
  }

  @Test
  void aColourThatASetHasNotIsSoughtInTheOthers() {
    DriveAnswer.NotInSet answer =
        (DriveAnswer.NotInSet)
            new DriveSolver(RGB).solve("blue", RegionSet.named("road").orElseThrow());
    assertThat(answer.instead())
        .extracting(DriveAnswer.Reached::set)
        .containsExactlyInAnyOrder("vehicle", "aerodrome", "aerodrome-led");
    assertThat(answer.instead())
        .isSortedAccordingTo((a, b) -> Double.compare(b.margin(), a.margin()));
    assertThat(answer.closest()).contains(answer.instead().get(0).drive());
    assertThat(new DriveSolver(RGB).solve("mauve", RegionSet.published().get(0)).closest())
        .isEmpty();
  }

  /** What the page of colour-out-of-region says of bins, for all sets that have yellow. */
  @Test
  void noFamilyHasAPublishedYellowOfEveryLed() {
    for (LedFamily family : LedFamily.published()) {
      assertThat(yellows(family)).as(family.name()).hasSize(7).allMatch(margin -> margin < 0);
    }
  }

  @Test
  void aGreenDieOfOneWavelengthWouldReachYellowAndOneMeasuredDieDoesNot() {
    Die green = RGB.dies().get(1);
    Die pure = Spectrum.die(Channel.GREEN, 522, 525, 0, 660, 720, "");
    assertThat(yellows(RGB.with(pure))).filteredOn(margin -> margin >= 0).hasSize(5);
    for (Die die : List.of(RGB.dies().get(0), green)) {
      Die measured = Die.measured(die.channel(), die.middle().chromaticity(), die.middle().y());
      assertThat(yellows(RGB.with(measured))).allMatch(margin -> margin < 0);
    }
    LedFamily both = RGB.middle().with(RGB.dies().get(2));
    assertThat(yellows(both)).anyMatch(margin -> margin >= 0);
  }

  /** How deep each published yellow holds every LED of a family at best. */
  private static List<Double> yellows(LedFamily family) {
    List<Double> margins = new ArrayList<>();
    for (RegionSet set : RegionSet.published()) {
      set.region("yellow")
          .map(
              region ->
                  SolvedDrives.of(family)
                      .found(family, set.name(), "yellow")
                      .orElseGet(() -> new DriveSolver(family).search(region)))
          .ifPresent(found -> margins.add(found.margin()));
    }
    return margins;
  }

  @Test
  void theClosestDriveIsThatOfTheWholeAnswer() {
    Set<String> colours = new TreeSet<>(List.of("amber", "mauve"));
    RegionSet.published().forEach(set -> colours.addAll(set.colours()));
    for (LedFamily family : LedFamily.published()) {
      for (RegionSet set : RegionSet.published()) {
        for (String colour : colours) {
          DriveSolver solver = new DriveSolver(family);
          assertThat(solver.closest(colour, set))
              .as("%s of %s on %s", colour, set.name(), family.name())
              .isEqualTo(solver.solve(colour, set).closest());
        }
      }
    }
  }

  private static DriveAnswer.Reached reached(LedFamily family, String colour, String set) {
    return (DriveAnswer.Reached)
        new DriveSolver(family).solve(colour, RegionSet.named(set).orElseThrow());
  }

  private static Region region(String set, String colour) {
    return RegionSet.named(set).orElseThrow().region(colour).orElseThrow();
  }
}
