package dev.doublet.bus;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The numbered statements of OASIS MQTT 3.1.1 (29 October 2014) on topic names. */
@Tag("slow")
class TopicNameTest {

  /** Statement 4.7.3-4 compares names as they are; empty levels are legal (from memory, 4.7.3). */
  @ParameterizedTest
  @ValueSource(strings = {"sig/1", "bnr/signals/W3 top", "/sig", "a//b", "/", "s/é", "$x", "🚦"})
  void mostTextsAreNames(String name) {
    assertThat(TopicName.fault(name)).isEmpty();
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "a/+ | \"+\" stands for other topics, and names none | 3.3.2-2 and 4.7.1-1",
        "#   | \"#\" stands for other topics, and names none | 3.3.2-2 and 4.7.1-1",
        "''  | a topic has at least one character            | 4.7.3-1"
      })
  void whatAStatementForbidsIsNone(String name, String fault, String statement) {
    assertThat(TopicName.fault(name)).contains(fault);
  }

  @Test
  void aNulCharacterIsRefusedByStatement473Dash2() {
    assertThat(TopicName.fault("a\0b")).contains("a topic cannot hold the character U+0000");
  }

  @Test
  void halfAPairIsRefusedByStatement153Dash1() {
    assertThat(TopicName.fault("a\uD83D")).contains("half of a character pair stands alone");
  }

  @Test
  void bytesAreCountedAsStatement473Dash3Says() {
    assertThat(TopicName.fault("é".repeat(32_767) + "x")).isEmpty();
    assertThat(TopicName.fault("é".repeat(32_768)))
        .contains("it takes 65536 bytes, and a topic at most 65535");
  }

  @Property(seed = "1957")
  void bytesAreCountedAsTheLibraryCountsThem(@ForAll("texts") String text) {
    String name = text + "x".repeat(65_535 - text.getBytes(StandardCharsets.UTF_8).length);
    assertThat(TopicName.fault(name)).isEmpty();
    assertThat(TopicName.fault(name + "x")).isPresent();
  }

  @Provide
  Arbitrary<String> texts() {
    return Arbitraries.of("a", "é", "語", "🚦", "/")
        .list()
        .ofMaxSize(50)
        .map(parts -> String.join("", parts));
  }
}
