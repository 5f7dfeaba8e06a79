package dev.doublet.source;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** When a near word is surely what was meant; the limits are a choice of ours. */
class NearestSureTest {
  private static final List<String> WORDS =
      List.of("address", "addresses", "red", "yellow", "W12", "Track 7", "deep", "deer");

  @ParameterizedTest
  @CsvSource({
    "adress, address",
    "addrress, address",
    "yelow, yellow",
    "yellwo, yellow",
    "YELLOW, yellow",
    "RED, red",
    "redd, red"
  })
  void one_slip_of_the_finger_is_sure(String word, String meant) {
    assertThat(Nearest.to(word, WORDS)).contains(meant);
    assertThat(Nearest.isSure(word, meant, WORDS)).isTrue();
  }

  @ParameterizedTest
  @CsvSource({
    "rad, red",
    "rd, red",
    "Track 8, Track 7",
    "W13, W12",
    "yelo, yellow",
    "dee, deep",
    "deeq, deep"
  })
  void a_short_word_a_digit_or_a_second_neighbour_leaves_a_doubt(String word, String meant) {
    assertThat(Nearest.isSure(word, meant, WORDS)).isFalse();
  }
}
