package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Published signal colour regions: known points, known corners, the traps, a second method. */
class RegionTest {

  @ParameterizedTest(name = "{0},{1} is {4} {2} {3}: {5}, {6}")
  @CsvFileSource(resources = "/facts/colour/points.csv", numLinesToSkip = 1)
  void knownPointsLieWhereTheyShould(
      double x, double y, String set, String colour, String place, String mark, String source) {
    double margin = region(set, colour).margin(new Chromaticity(x, y));
    switch (place) {
      case "inside" -> assertThat(margin).isPositive();
      case "outside" -> assertThat(margin).isNegative();
      default -> assertThat(margin).isCloseTo(0, within(1e-12));
    }
  }

  @ParameterizedTest(name = "{0} {1} has a corner at {2},{3}: {4}, {5}")
  @CsvFileSource(resources = "/facts/colour/corners.csv", numLinesToSkip = 1)
  void linesMeetInTheKnownCorners(
      String set, String colour, double x, double y, String mark, String source) {
    Chromaticity known = new Chromaticity(x, y);
    assertThat(region(set, colour).corners()).anyMatch(c -> c.distance(known) < 1.5e-3);
  }

  /**
   * 33 CFR 84.13 prints the red corners in an order that crosses itself; its own order is shown.
   */
  @Test
  void redCornersAreInOrderRoundTheRegion() {
    Chromaticity red = new Chromaticity(0.6957, 0.3041);
    List<Chromaticity> printed =
        List.of(
            new Chromaticity(0.680, 0.320),
            new Chromaticity(0.660, 0.320),
            new Chromaticity(0.735, 0.265),
            new Chromaticity(0.721, 0.259));
    assertThat(Region.ofCorners("red", printed, "", "").contains(red)).isFalse();
    assertThat(region("marine", "red").contains(red)).isTrue();
  }

  /**
   * A trap: the stored text of the road table has lost its minus signs. EN 12368's draft has the
   * lines of the LED lamps of aerodromes, which another source prints whole (SEEN).
   */
  @Test
  void roadSignalsHaveTheLinesOfASourceThatKeptItsMinusSigns() {
    assertThat(region("road", "yellow").corners())
        .isEqualTo(region("aerodrome-led", "yellow").corners());
    assertThat(region("road", "green").corners())
        .isEqualTo(region("aerodrome-led", "green-deficient").corners());
    assertThat(region("road-narrow", "green").contains(new Chromaticity(0.1343, 0.5518))).isTrue();
    assertThat(region("road-narrow", "green").contains(new Chromaticity(0.1338, 0.7618))).isFalse();
  }

  /** A trap: a reprint of COLREG has 3.310 and 0.388 among the corners of white. */
  @Test
  void cornersAreNoMisprints() {
    for (RegionSet set : RegionSet.published()) {
      for (Region region : set.regions()) {
        assertThat(region.corners())
            .as("%s %s", set.name(), region.colour())
            .hasSizeGreaterThan(2)
            .allMatch(Chromaticity::isOfLight);
      }
    }
    for (String set : List.of("marine", "vehicle", "aerodrome")) {
      assertThat(region(set, "white").corners())
          .as(set)
          .anyMatch(c -> c.distance(new Chromaticity(0.443, 0.382)) < 5e-4)
          .noneMatch(c -> Math.abs(c.y() - 0.388) < 1e-3);
    }
  }

  @Test
  void noRegionCrossesItself() {
    for (RegionSet set : RegionSet.published()) {
      for (Region region : set.regions()) {
        List<Chromaticity> c = region.corners();
        for (int i = 0; i < c.size(); i++) {
          for (int j = i + 2; j < c.size() - (i == 0 ? 1 : 0); j++) {
            Chromaticity next = c.get((j + 1) % c.size());
            boolean apart =
                side(c.get(i), c.get(i + 1), c.get(j)) * side(c.get(i), c.get(i + 1), next) >= 0
                    || side(c.get(j), next, c.get(i)) * side(c.get(j), next, c.get(i + 1)) >= 0;
            assertThat(apart)
                .as("%s %s sides %s and %s", set.name(), region.colour(), i, j)
                .isTrue();
          }
        }
      }
    }
  }

  private static double side(Chromaticity from, Chromaticity to, Chromaticity p) {
    return (to.x() - from.x()) * (p.y() - from.y()) - (to.y() - from.y()) * (p.x() - from.x());
  }

  /** 14 CFR 25.1397 (SEEN) gives white by the Planck curve; our corners follow it, COMPUTED. */
  @Property(tries = 300, seed = "1957")
  void aircraftWhiteIsAsPrinted(
      @ForAll @DoubleRange(min = 0.28, max = 0.56) double x,
      @ForAll @DoubleRange(min = 0.24, max = 0.48) double y) {
    double floor = Math.min(x - 0.040, planckAt(x) - 0.010);
    double ceiling = Math.min(x + 0.020, 0.636 - 0.400 * x);
    double printed = Math.min(Math.min(x - 0.300, 0.540 - x), Math.min(y - floor, ceiling - y));
    // The floor is a line of a few corners: leave out what lies in its width.
    if (Math.abs(printed) > 4e-4) {
      assertThat(region("aircraft", "white").contains(new Chromaticity(x, y)))
          .isEqualTo(printed > 0);
    }
  }

  private static double planckAt(double x) {
    double low = 1000;
    double high = 20000;
    for (int i = 0; i < 40; i++) {
      double middle = (low + high) / 2;
      if (Planck.look(middle).chromaticity().x() > x) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return Planck.look(low).chromaticity().y();
  }

  @Property(tries = 400, seed = "1957")
  void aRegionGivenByLinesIsWhereAllItsLinesHold(
      @ForAll @DoubleRange(max = 0.75) double x, @ForAll @DoubleRange(max = 0.85) double y) {
    double[] rim = {margins(Observer.locus(), x, y)};
    Set<String> names = new TreeSet<>();
    List<List<String>> rows = Rows.of("region-lines.csv");
    rows.forEach(row -> names.add(row.get(0) + "," + row.get(1)));
    for (String name : names) {
      double least = rim[0];
      for (List<String> row : rows) {
        if (name.equals(row.get(0) + "," + row.get(1))) {
          double a = Double.parseDouble(row.get(2));
          double b = Double.parseDouble(row.get(3));
          double c = Double.parseDouble(row.get(4));
          least = Math.min(least, c - a * x - b * y);
        }
      }
      if (Math.abs(least) > 1.5e-3) {
        String[] key = name.split(",");
        assertThat(region(key[0], key[1]).contains(new Chromaticity(x, y)))
            .as(name)
            .isEqualTo(least > 0);
      }
    }
  }

  /** The second method: the angle that the border turns round the point, and sampled distances. */
  @Property(tries = 400, seed = "1957")
  void marginsAgreeWithTurnsAndSampledDistances(
      @ForAll @DoubleRange(max = 0.75) double x, @ForAll @DoubleRange(max = 0.85) double y) {
    for (RegionSet set : RegionSet.published()) {
      for (Region region : set.regions()) {
        double margin = region.margin(new Chromaticity(x, y));
        double sampled = margins(region.corners(), x, y);
        if (Math.abs(sampled) > 1.5e-3) {
          assertThat(margin >= 0).as("%s %s", set.name(), region.colour()).isEqualTo(sampled > 0);
          if (sampled < 0) {
            assertThat(margin).isCloseTo(sampled, within(1e-4));
          } else {
            // Sides along the rim do not count inside, so the margin can only be greater.
            assertThat(margin).isGreaterThan(sampled - 1e-4);
          }
        }
      }
    }
  }

  private static double margins(List<Chromaticity> corners, double x, double y) {
    double turned = 0;
    double nearest = Double.POSITIVE_INFINITY;
    for (int i = 0; i < corners.size(); i++) {
      Chromaticity from = corners.get(i);
      Chromaticity to = corners.get((i + 1) % corners.size());
      double before = Math.atan2(from.y() - y, from.x() - x);
      double after = Math.atan2(to.y() - y, to.x() - x);
      turned += Math.IEEEremainder(after - before, 2 * Math.PI);
      for (int part = 0; part <= 400; part++) {
        double px = from.x() + (to.x() - from.x()) * part / 400;
        double py = from.y() + (to.y() - from.y()) * part / 400;
        nearest = Math.min(nearest, (px - x) * (px - x) + (py - y) * (py - y));
      }
    }
    return Math.abs(turned) > Math.PI ? Math.sqrt(nearest) : -Math.sqrt(nearest);
  }

  @Test
  void pureLightOfTheRimIsNotOutside() {
    for (double nm = 615; nm <= 645; nm += 0.5) {
      assertThat(region("vehicle", "red").margin(Spectrum.monochromatic(nm)))
          .as("%s nm", nm)
          .isGreaterThan(0.005);
    }
    Chromaticity justBeyond = new Chromaticity(0.6960, 0.3046);
    assertThat(region("vehicle", "red").contains(justBeyond)).isTrue();
    Chromaticity wellBeyond = new Chromaticity(0.6980, 0.3066);
    assertThat(region("vehicle", "red").contains(wellBeyond)).isFalse();
  }

  /** CHOICE: no published region of lunar or warm white was found. */
  @Test
  void lunarAndWarmWhiteAreTheEndsOfWhiteAndStayApart() {
    for (RegionSet set : RegionSet.published()) {
      if (set.region("white").isPresent()) {
        List<Chromaticity> lunar = new ArrayList<>(region(set.name(), "lunar").corners());
        List<Chromaticity> warm = region(set.name(), "warm-white").corners();
        assertThat(lunar).allMatch(c -> region(set.name(), "white").margin(c) > -1e-12);
        assertThat(warm).allMatch(c -> region(set.name(), "white").margin(c) > -1e-12);
        for (Chromaticity one : lunar) {
          assertThat(warm).allMatch(other -> one.difference(other) >= Seeing.APART);
        }
      }
    }
  }

  @Test
  void setsTellWhatTheyHaveAndWhereItIsPublished() {
    assertThat(RegionSet.published())
        .extracting(RegionSet::name)
        .containsExactly(
            "marine",
            "vehicle",
            "aerodrome",
            "aerodrome-led",
            "road",
            "road-narrow",
            "road-americas",
            "aircraft",
            "own");
    assertThat(RegionSet.named("road").orElseThrow().colours())
        .containsExactly("red", "yellow", "green");
    assertThat(RegionSet.named("marine").orElseThrow().colours())
        .containsExactly("white", "green", "red", "yellow", "lunar", "warm-white");
    assertThat(region("vehicle", "amber")).isSameAs(region("vehicle", "yellow"));
    assertThat(RegionSet.named("marine").orElseThrow().region("blue")).isEmpty();
    assertThat(RegionSet.named("nowhere")).isEmpty();
    assertThat(region("aerodrome", "green-sure").citation()).contains("U.930(b)");
  }

  private static Region region(String set, String colour) {
    return RegionSet.named(set).orElseThrow().region(colour).orElseThrow();
  }
}
