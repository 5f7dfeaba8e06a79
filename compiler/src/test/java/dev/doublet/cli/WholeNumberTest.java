package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** An option takes the ends of its range, and says what it takes to whoever goes past them. */
class WholeNumberTest {
  private static final WholeNumber WIDTH = new WholeNumber("--width", "millimetres", 10, 300);

  @ParameterizedTest
  @ValueSource(ints = {10, 11, 299, 300})
  void what_lies_within_is_taken(int number) {
    assertThat(WIDTH.of(Integer.toString(number))).isEqualTo(number);
  }

  @ParameterizedTest
  @ValueSource(strings = {"9", "301", "-10", "10.5", "", "ten", "1000000000", "99999999999999"})
  void nothing_else_is(String text) {
    assertThatThrownBy(() -> WIDTH.of(text))
        .hasMessage(
            "--width takes a whole number of millimetres from 10 to 300, not \"" + text + "\"");
  }
}
