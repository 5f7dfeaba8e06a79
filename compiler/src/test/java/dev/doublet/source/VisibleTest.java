package dev.doublet.source;

import static org.assertj.core.api.Assertions.assertThat;

import com.ibm.icu.lang.UCharacter;
import com.ibm.icu.lang.UCharacterCategory;
import com.ibm.icu.lang.UProperty;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What is not shown is what Unicode says has no shape, by a library that knows it all. */
class VisibleTest {
  private static final Set<Integer> ANCHORS = Set.of(0xFFF9, 0xFFFA, 0xFFFB);

  @Test
  void hidden_characters_are_controls_ends_of_lines_halves_and_what_unicode_lets_be_ignored() {
    for (int c = 0; c <= Character.MAX_CODE_POINT; c++) {
      int type = UCharacter.getType(c);
      boolean hidden =
          type == UCharacterCategory.CONTROL
              || type == UCharacterCategory.LINE_SEPARATOR
              || type == UCharacterCategory.PARAGRAPH_SEPARATOR
              || type == UCharacterCategory.SURROGATE
              || UCharacter.hasBinaryProperty(c, UProperty.NONCHARACTER_CODE_POINT)
              || UCharacter.hasBinaryProperty(c, UProperty.DEFAULT_IGNORABLE_CODE_POINT)
              || UCharacter.hasBinaryProperty(c, UProperty.BIDI_CONTROL)
              || ANCHORS.contains(c);
      assertThat(Visible.isHidden(c)).as("%04X", c).isEqualTo(hidden);
    }
  }

  @Test
  void hidden_characters_are_shown_by_number_and_all_others_as_they_are() {
    assertThat(Visible.of("\u001B[31mSt\u202Eop\u00ADé\uD83D\uDEA6\n"))
        .isEqualTo("<U+001B>[31mSt<U+202E>op<U+00AD>é\uD83D\uDEA6\n");
    assertThat(Visible.of("\uDB40\uDC41 \uD800 a\tb")).isEqualTo("<U+E0041> <U+D800> a b");
    assertThat(Visible.line("a\nb\r")).isEqualTo("a<U+000A>b<U+000D>");
    String plain = "Clear to Slow · “ä” Стоп";
    assertThat(Visible.of(plain)).isSameAs(plain);
  }

  @Test
  void of_a_word_of_a_hundred_letters_all_is_told_and_of_longer_ones_the_beginning() {
    String signal = "\uD83D\uDEA6";
    String longest = "no arm is called " + signal.repeat(100) + " nor by another name";
    assertThat(Visible.brief(longest)).isEqualTo(longest);
    assertThat(Visible.brief("of " + signal.repeat(101) + " two"))
        .isEqualTo("of " + signal.repeat(99) + "… two");
    assertThat(Visible.brief("a ".repeat(20_000))).hasSize(1_000).endsWith("a…");
  }
}
