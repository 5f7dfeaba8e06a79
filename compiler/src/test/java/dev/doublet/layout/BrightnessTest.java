package dev.doublet.layout;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class BrightnessTest {

  @Test
  void roundsHalfUpAndNeverToNothing() {
    assertThat(Brightness.FULL.dimmed(0)).isZero();
    assertThat(Brightness.FULL.dimmed(255)).isEqualTo(255);
    Brightness one = Brightness.of(1, 100, 100);
    assertThat(List.of(one.dimmed(1), one.dimmed(149), one.dimmed(150))).containsExactly(1, 1, 2);
  }

  @Test
  void isThePartOfAPartOfAPartByDecimalsOfAnyLength() {
    Random random = new Random(1);
    for (int i = 0; i < 20_000; i++) {
      int chain = 1 + random.nextInt(100);
      int signal = 1 + random.nextInt(100);
      int lamp = 1 + random.nextInt(100);
      int drive = 1 + random.nextInt(255);
      int exact =
          BigDecimal.valueOf((long) drive * chain * signal * lamp, 6)
              .setScale(0, RoundingMode.HALF_UP)
              .intValue();
      assertThat(Brightness.of(chain, signal, lamp).dimmed(drive)).isEqualTo(Math.max(1, exact));
    }
  }

  @Test
  void lampsThatAreAllAlikeAreNoMoreThanTheirSignal() {
    assertThat(Dimming.of(100, List.of(60, 60))).isEqualTo(new Dimming(60, List.of()));
    assertThat(Dimming.of(50, List.of(100, 100))).isEqualTo(new Dimming(50, List.of()));
    assertThat(Dimming.of(50, List.of(60, 60))).isEqualTo(new Dimming(50, List.of(60, 60)));
  }
}
