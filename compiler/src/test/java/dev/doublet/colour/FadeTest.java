package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** How filaments come on and go out; the table stands in facts/colour. */
class FadeTest {

  /** The known values were worked with a coarser step: the rise agrees to 0.003. */
  @ParameterizedTest(name = "{0} ms: {3}, {4}")
  @CsvFileSource(resources = "/facts/colour/fade.csv", numLinesToSkip = 1)
  void filamentsFollowTheModel(int ms, double rise, double fall, String mark, String source) {
    assertThat(Filament.rise(ms)).isCloseTo(rise, within(0.003));
    assertThat(Filament.fall(ms)).isCloseTo(fall, within(6e-4));
  }

  /** UMTRI-93-37 (SEEN): 90 % after about 250 ms. */
  @Test
  void nineTenthsAreReachedAfterAQuarterSecond() {
    assertThat(Filament.rise(250)).isCloseTo(0.9, within(0.005));
  }

  /** A plain exponential would show light at once and fall no faster than it rises. */
  @Test
  void theRiseIsAnSAndTheFallIsFastWithALongTail() {
    assertThat(Filament.rise(30)).isLessThan(0.005);
    double start = Filament.rise(60) - Filament.rise(40);
    double middle = Filament.rise(150) - Filament.rise(130);
    double end = Filament.rise(320) - Filament.rise(300);
    assertThat(middle).isGreaterThan(4 * start).isGreaterThan(4 * end);
    assertThat(Filament.fall(23)).isCloseTo(0.5, within(0.02));
    double early = Filament.fall(20) / Filament.fall(0);
    double late = Filament.fall(220) / Filament.fall(200);
    assertThat(late).isGreaterThan(early + 0.15);
  }

  @Property(seed = "1957")
  void integersStayWithinOneStepOfTheCurve(@ForAll @IntRange(max = 2000) int ms) {
    assertThat((double) Fade.RISE.level(ms)).isCloseTo(255 * Filament.rise(ms), within(1.0));
    assertThat((double) Fade.FALL.level(ms)).isCloseTo(255 * Filament.fall(ms), within(1.0));
  }

  @Test
  void everyMillisecondOfTheFadeStaysWithinOneStep() {
    for (int ms = 0; ms <= Filament.LONGEST + 8; ms++) {
      integersStayWithinOneStepOfTheCurve(ms);
    }
  }

  @Property(seed = "1957")
  void levelsNeverTurnBack(@ForAll @IntRange(max = 600) int ms) {
    assertThat(Fade.RISE.level(ms + 1)).isGreaterThanOrEqualTo(Fade.RISE.level(ms));
    assertThat(Fade.FALL.level(ms + 1)).isLessThanOrEqualTo(Fade.FALL.level(ms));
  }

  @Test
  void fadesBeginAndEndAtRest() {
    assertThat(Fade.RISE.level(0)).isZero();
    assertThat(Fade.RISE.level(10_000)).isEqualTo(255);
    assertThat(Fade.FALL.level(0)).isEqualTo(255);
    assertThat(Fade.FALL.level(10_000)).isZero();
    assertThat(Fade.RISE.samples()).hasSize(65);
    assertThat(Fade.FALL.samples()).hasSize(129);
  }
}
