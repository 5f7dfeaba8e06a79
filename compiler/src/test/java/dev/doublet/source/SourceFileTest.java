package dev.doublet.source;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.function.Function;
import org.junit.jupiter.api.Test;

/** What is made of a text is made as often as the text asks for it. */
class SourceFileTest {
  private static final Function<SourceFile, StringBuilder> COPY = f -> new StringBuilder(f.text());
  private static final Function<SourceFile, StringBuilder> NAME = f -> new StringBuilder(f.name());

  private final SourceFile file = new SourceFile("a/book.aspects", "one\r\ntwo\n");

  @Test
  void of_a_text_that_is_not_kept_all_is_made_anew() {
    assertThat(file.once(COPY)).isNotSameAs(file.once(COPY));
    assertThat(file.once(COPY)).hasToString("one\r\ntwo\n");
  }

  @Test
  void of_a_kept_text_each_maker_makes_its_own_thing_once() {
    SourceFile kept = file.kept();
    assertThat(kept.once(COPY)).isSameAs(kept.once(COPY));
    assertThat(kept.once(NAME)).isSameAs(kept.once(NAME));
    assertThat(kept.once(COPY)).hasToString("one\r\ntwo\n");
    assertThat(kept.once(NAME)).hasToString("a/book.aspects");
  }

  @Test
  void what_is_made_goes_with_the_text_that_was_kept() {
    SourceFile kept = file.kept();
    assertThat(kept.kept()).isSameAs(kept);
    assertThat(file.kept().once(COPY)).isNotSameAs(kept.once(COPY));
    assertThat(file.once(COPY)).isNotSameAs(kept.once(COPY));
  }

  @Test
  void a_kept_text_is_the_same_text() {
    SourceFile kept = file.kept();
    assertThat(kept.name()).isEqualTo(file.name());
    assertThat(kept.text()).isEqualTo(file.text());
    assertThat(kept.lineCount()).isEqualTo(3);
    assertThat(kept.line(2)).isEqualTo("two");
  }
}
