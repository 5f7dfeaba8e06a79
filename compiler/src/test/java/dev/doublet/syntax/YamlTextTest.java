package dev.doublet.syntax;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import dev.doublet.source.SourceFile;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A written text reads as itself, to a YAML library of general use and to ours. */
class YamlTextTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Stop",
        "Stop and Proceed",
        "Approach: Medium",
        "Medium #1",
        "- dash",
        "a, b",
        "{x}",
        "[x]",
        "\"quoted\"",
        "it's",
        "back\\slash",
        "*star",
        "&and",
        "!bang",
        "| bar",
        "> more",
        "% percent",
        "@at",
        "`tick`",
        " blank",
        "blank ",
        "ends:",
        "#hash",
        "Ä Ö",
        "a\tb",
        "?",
        "-",
        "x - y"
      })
  void a_text_reads_as_itself(String text) throws Exception {
    for (String frame : new String[] {"{k: %s, l: 1}", "k: %s\nl: 1\n", "%2$s: %1$s\n"}) {
      String yaml = frame.formatted(YamlText.of(text), "k");
      assertThat(new YAMLMapper().readTree(yaml).get("k").asText()).as(yaml).isEqualTo(text);
      YamlNode.Mapping read =
          (YamlNode.Mapping) YamlReader.read(new SourceFile("t.yaml", yaml)).value().orElseThrow();
      assertThat(((YamlNode.Scalar) read.entries().get(0).value()).text()).isEqualTo(text);
    }
  }
}
