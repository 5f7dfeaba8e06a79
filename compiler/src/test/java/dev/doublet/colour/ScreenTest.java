package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Chromaticities of IEC 61966-2-1 (sRGB): its three primaries and its white, D65. */
class ScreenTest {

  @ParameterizedTest
  @CsvSource({
    "0.64, 0.33, #ff0000",
    "0.30, 0.60, #00ff00",
    "0.15, 0.06, #0000ff",
    "0.3127, 0.3290, #ffffff"
  })
  void the_primaries_and_white_of_the_standard_are_full_channels(double x, double y, String hex) {
    Screen screen = Screen.of(new Chromaticity(x, y));

    assertThat(near(screen, hex)).as(screen.hex()).isTrue();
    assertThat(screen.within()).isTrue();
  }

  @Test
  void light_of_one_wavelength_is_out_of_reach_and_drawn_with_a_channel_dark() {
    for (int nm = 400; nm <= 690; nm += 10) {
      Screen screen = Screen.of(Observer.at(nm).chromaticity());

      assertThat(screen.within()).as(nm + " nm").isFalse();
      assertThat(Math.min(screen.red(), Math.min(screen.green(), screen.blue()))).isZero();
      assertThat(Math.max(screen.red(), Math.max(screen.green(), screen.blue()))).isEqualTo(255);
    }
  }

  /** The matrix is published to four digits, so a channel may be a few levels off. */
  private static boolean near(Screen screen, String hex) {
    int[] own = {screen.red(), screen.green(), screen.blue()};
    for (int i = 0; i < 3; i++) {
      int wanted = Integer.parseInt(hex.substring(1 + 2 * i, 3 + 2 * i), 16);
      if (Math.abs(own[i] - wanted) > 6) {
        return false;
      }
    }
    return true;
  }
}
