package dev.doublet.editor;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class WordHelpTest {
  @Test
  void a_word_is_told_of_in_the_line_that_is_about_it() {
    assertThat(WordHelp.of("head")).startsWith("a make of head: lamps in chain order");
    assertThat(WordHelp.of("stop")).isEqualTo("come to a stand");
    assertThat(WordHelp.of("unsaid")).startsWith("the signal says nothing of it");
    assertThat(WordHelp.of("lit")).startsWith("dark heads are not there");
    assertThat(WordHelp.of("on")).startsWith("a pattern");
  }

  @Test
  void a_choice_is_told_of_where_it_is_named() {
    assertThat(WordHelp.of("dark")).startsWith("a pattern");
    assertThat(WordHelp.of("any")).startsWith("a pattern");
    assertThat(WordHelp.of("maximum")).startsWith("speeds");
  }

  @Test
  void what_a_word_says_in_one_line_alone_is_told_with_that_line() {
    assertThat(WordHelp.of("number")).startsWith("as in `rule 316   number 15 ");
    assertThat(WordHelp.of("with")).startsWith("as in `head searchlight with filament");
    assertThat(WordHelp.of("minute")).startsWith("as in `rhythms {").contains("ways of flashing");
    assertThat(WordHelp.of("nothing-of-ours")).isEmpty();
  }
}
