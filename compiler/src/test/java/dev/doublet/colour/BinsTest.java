package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

/** How near two colours come for the LEDs of all bins, against LEDs picked from the bins. */
class BinsTest {
  private static final int PICKED = 200;

  /** Not for the corners alone: the areas between them may meet where no corners do. */
  @Property(tries = 400, seed = "1957")
  void noTwoLedsOfTheBinsComeNearerThanTheLeastDifference(@ForAll Eye eye, @ForAll long seed) {
    Random random = new Random(seed);
    LedFamily family = LedFamily.published().get(random.nextInt(LedFamily.published().size()));
    Drive one = drive(family, random);
    Drive other = drive(family, random);
    double least = eye.leastDifference(family.corners(one), family.corners(other));
    // Bins follow the bent rim of all colours, which chords between their ends leave by so much.
    double bend = 5e-4;
    for (int i = 0; i < PICKED; i++) {
      assertThat(difference(eye, family, one, other, random))
          .as("%s on %s and %s of %s", eye, one, other, family.name())
          .isGreaterThan(least - bend);
    }
  }

  /** Fifty thousand LEDs come near the least, so it is no lower than it has to be. */
  @Test
  void theLeastDifferenceIsReached() {
    LedFamily family = LedFamily.named("one-wire-rgb-5050").orElseThrow();
    Random random = new Random(1957);
    for (Eye eye : Eye.values()) {
      Drive yellow = Drive.of(255, 84, 0);
      Drive purple = Drive.of(255, 0, 189);
      double least = eye.leastDifference(family.corners(yellow), family.corners(purple));
      double met =
          Stream.generate(() -> difference(eye, family, yellow, purple, random))
              .limit(50_000)
              .min(Double::compare)
              .orElseThrow();
      assertThat(met).as("%s", eye).isLessThan(least + 0.002);
    }
  }

  /** Corners alone would be 0.024 and 0.008 apart; the second pair meets at the neutral colour. */
  @Test
  void binsMayMeetWhereTheirCornersDoNot() {
    LedFamily dim = LedFamily.named("one-wire-rgb-5050-5ma-dim").orElseThrow();
    meet(Eye.PROTAN, dim, Drive.of(131, 0, 214), Drive.of(0, 0, 202));
    LedFamily white = LedFamily.named("one-wire-rgbw-5050-white-6500k").orElseThrow();
    meet(Eye.TRITAN, white, Drive.of(161, 0, 195, 0), Drive.of(0, 0, 0, 96));
  }

  private static void meet(Eye eye, LedFamily family, Drive one, Drive other) {
    Random random = new Random(1957);
    assertThat(Stream.generate(() -> difference(eye, family, one, other, random)).limit(5_000))
        .anyMatch(difference -> difference < 1e-3);
    assertThat(eye.leastDifference(family.corners(one), family.corners(other))).isLessThan(1e-3);
  }

  @Test
  void ofAMeasuredLedTheLeastDifferenceIsTheOnly() {
    LedFamily one = LedFamily.named("one-wire-rgbw-5050-white-6500k").orElseThrow().middle();
    Drive lunar = Drive.of(0, 0, 5, 255);
    Drive green = Drive.of(0, 255, 31, 0);
    for (Eye eye : Eye.values()) {
      assertThat(eye.leastDifference(one.corners(lunar), one.corners(green)))
          .isEqualTo(
              eye.difference(one.light(lunar).chromaticity(), one.light(green).chromaticity()),
              org.assertj.core.api.Assertions.within(1e-12));
    }
  }

  private static double difference(
      Eye eye, LedFamily family, Drive one, Drive other, Random random) {
    return eye.difference(
        picked(family, one, random).chromaticity(), picked(family, other, random).chromaticity());
  }

  private static Drive drive(LedFamily family, Random random) {
    List<Integer> levels =
        family.dies().stream()
            .map(die -> random.nextInt(3) == 0 ? 0 : random.nextInt(256))
            .toList();
    Drive drive = new Drive(levels);
    return drive.lit() == 0 ? drive(family, random) : drive;
  }

  /** An LED with each die anywhere in its bins, often at their ends. */
  private static Xyz picked(LedFamily family, Drive drive, Random random) {
    Xyz light = Xyz.DARK;
    for (int i = 0; i < family.dies().size(); i++) {
      Die die = family.dies().get(i);
      Chromaticity low = die.corners().get(0).chromaticity();
      Chromaticity high = die.corners().get(3).chromaticity();
      Chromaticity middle = die.middle().chromaticity();
      double place = 2 * anywhere(random);
      Chromaticity colour =
          place < 1 ? between(low, middle, place) : between(middle, high, place - 1);
      double weakest = die.corners().get(0).y();
      double mcd = weakest + anywhere(random) * (die.corners().get(3).y() - weakest);
      light = light.plus(Xyz.of(colour, mcd).times(drive.level(i) / (double) Drive.FULL));
    }
    return light;
  }

  private static double anywhere(Random random) {
    return random.nextInt(3) == 0 ? random.nextInt(2) : random.nextDouble();
  }

  private static Chromaticity between(Chromaticity from, Chromaticity to, double part) {
    return new Chromaticity(
        from.x() + part * (to.x() - from.x()), from.y() + part * (to.y() - from.y()));
  }
}
