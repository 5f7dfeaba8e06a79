package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.doublet.source.SourceReader.Unreadable;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What editors save that is not UTF-8 is told as what it is. */
class Utf8Test {
  @ParameterizedTest
  @CsvSource({
    "UTF-16, rulebook",
    "UTF-16BE, rulebook",
    "UTF-16LE, rulebook",
    "UTF-16BE, ru",
    "UTF-16LE, ru",
    "UTF-16, ü",
    "UTF-16BE, \uFEFFü",
    "UTF-16LE, \uFEFFü"
  })
  void a_text_of_two_bytes_a_letter_is_told_to_be_one(String charset, String text) {
    byte[] saved = text.getBytes(Charset.forName(charset));
    assertThatThrownBy(() -> Utf8.text(saved))
        .isInstanceOf(Unreadable.class)
        .hasMessageContaining("it is a text in UTF-16");
  }

  @ParameterizedTest
  @ValueSource(strings = {"r\0\0\0", "\0r\0\0", "\0\0\0\0", "r\0u", "r\0u\0l"})
  void bytes_with_zeros_among_them_are_no_text(String bytes) {
    assertThatThrownBy(() -> Utf8.text(bytes.getBytes(StandardCharsets.UTF_8)))
        .isInstanceOf(Unreadable.class)
        .hasMessageContaining("this is not a text file");
  }

  @Test
  void a_mark_at_the_beginning_is_no_part_of_the_text() throws Unreadable {
    assertThat(Utf8.text("\uFEFFrulebook".getBytes(StandardCharsets.UTF_8))).isEqualTo("rulebook");
  }

  @Test
  void a_text_may_have_16_mebibytes_and_no_more() throws Unreadable {
    byte[] most = " ".repeat(Utf8.MOST_BYTES).getBytes(StandardCharsets.UTF_8);
    assertThat(Utf8.text(most)).hasSize(Utf8.MOST_BYTES);
    assertThatThrownBy(() -> Utf8.text(new byte[Utf8.MOST_BYTES + 1]))
        .hasMessageContaining("larger than 16 MiB");
  }
}
