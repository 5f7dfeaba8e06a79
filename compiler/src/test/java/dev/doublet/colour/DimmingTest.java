package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

/** Drives made weaker. */
class DimmingTest {
  private static final LedFamily RGB = LedFamily.named("one-wire-rgb-5050").orElseThrow();

  @Test
  void dimmingKeepsTheColourUntilLevelsGetTooCoarse() {
    Drive lunar = Drive.of(214, 255, 70);
    Dimming.Dimmed half = Dimming.toFraction(RGB, lunar, 0.4075);
    assertThat(half.shift()).isLessThan(Seeing.SAME);
    assertThat(half.light().y()).isCloseTo(0.4075 * RGB.light(lunar).y(), within(6.0));
    Dimming.Dimmed faint = Dimming.toFraction(RGB, lunar, 0.008);
    assertThat(faint.shift()).isGreaterThan(Seeing.SAME);
    assertThat(Dimming.toFraction(RGB, lunar, 1).drive()).isEqualTo(lunar);
    assertThat(Dimming.toFraction(RGB, lunar, 0).shift()).isInfinite();
  }

  @Property(tries = 200, seed = "1957")
  void noOtherRoundingKeepsTheColourBetter(
      @ForAll @DoubleRange(min = 0.02, max = 1) double fraction) {
    Drive drive = Drive.of(214, 255, 70);
    Chromaticity before = RGB.light(drive).chromaticity();
    Dimming.Dimmed dimmed = Dimming.toFraction(RGB, drive, fraction);
    for (int bits = 0; bits < 8; bits++) {
      Drive other =
          Drive.of(
              (int) Math.floor(214 * fraction) + (bits & 1),
              (int) Math.floor(255 * fraction) + (bits >> 1 & 1),
              (int) Math.floor(70 * fraction) + (bits >> 2));
      if (fraction < 1) {
        assertThat(dimmed.shift())
            .isLessThanOrEqualTo(before.difference(RGB.light(other).chromaticity()) + 1e-12);
      }
    }
  }

  @Test
  void coloursAreBroughtToTheWeakestOfThem() {
    List<Drive> drives = List.of(Drive.of(255, 0, 0), Drive.of(0, 255, 34), Drive.of(228, 255, 77));
    List<Dimming.Dimmed> level = Dimming.toWeakest(RGB, drives);
    assertThat(level.get(0).drive()).isEqualTo(drives.get(0));
    assertThat(level).allMatch(d -> d.shift() < Seeing.SAME);
    assertThat(level).allMatch(d -> Math.abs(d.light().y() - 405) < 5);
    assertThat(Dimming.toWeakest(RGB, List.of())).isEmpty();
  }
}
