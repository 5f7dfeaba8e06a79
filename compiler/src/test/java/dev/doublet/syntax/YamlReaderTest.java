package dev.doublet.syntax;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.Position;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What the YAML reader makes of texts, good and bad. */
class YamlReaderTest {

  @Test
  void everyKeyAndValueKnowsItsPlace() {
    String text =
        """
        a: {b: 'x', c: [1, yes]}   # said in one line
        d:
          - "q 🚦"
          - plain text  # said at length
          - >
            several
            lines
        e:
        f: ~
        """;
    assertThat(texts(root(text)))
        .containsExactly(
            text.strip(),
            "a",
            "{b: 'x', c: [1, yes]}",
            "b",
            "'x'",
            "c",
            "[1, yes]",
            "1",
            "yes",
            "d",
            text.substring(text.indexOf("- \"q"), text.indexOf("e:")),
            "\"q 🚦\"",
            "plain text",
            ">\n    several\n    lines\n",
            "e",
            "",
            "f",
            "~");
  }

  @Test
  void placesAfterCharactersOutsideTheBasicPlaneAreExact() {
    YamlNode.Mapping root = (YamlNode.Mapping) root("🚦🚦: 🚦\nnext: {🚦: here}\n");
    YamlNode.Mapping inner = (YamlNode.Mapping) root.entries().get(1).value();
    assertThat(root.entries().get(0).value().span().text()).isEqualTo("🚦");
    assertThat(inner.entries().get(0).value().span().text()).isEqualTo("here");
    assertThat(inner.entries().get(0).value().span().from()).isEqualTo(new Position(2, 11));
  }

  @Test
  void numbersAndWordsKeepTheirLetters() {
    YamlNode.Sequence root = (YamlNode.Sequence) root("[007, 1_0, 0x1F, No, 1e3, 01.01.02, '5']");
    assertThat(root.items())
        .extracting(n -> ((YamlNode.Scalar) n).text())
        .containsExactly("007", "1_0", "0x1F", "No", "1e3", "01.01.02", "5");
    assertThat(root.items())
        .extracting(n -> ((YamlNode.Scalar) n).quoted())
        .containsExactly(false, false, false, false, false, false, true);
  }

  @Test
  void aKeySaidTwiceIsReportedAndTheFirstStays() {
    Outcome<YamlNode> outcome = read("a: 1\nb: 2\na: 3\n");
    YamlNode.Mapping root = (YamlNode.Mapping) outcome.value().orElseThrow();
    assertThat(root.entries()).extracting(e -> e.key().text()).containsExactly("a", "b");
    Diagnostic only = only(outcome);
    assertThat(only.name()).isEqualTo("duplicate-key");
    assertThat(only.primary().span().from()).isEqualTo(new Position(3, 1));
    assertThat(only.related().get(0).span().from()).isEqualTo(new Position(1, 1));
  }

  @ParameterizedTest(name = "{index}: {2}")
  @CsvSource(
      quoteCharacter = '`',
      delimiter = '|',
      value = {
        "a: b: c                 | 1:5 | a colon cannot stand here",
        "a: 1;  b: 2             | 2:4 | a colon cannot stand here",
        "a: 1;b;c: 2             | 2:1 | this line has no colon",
        "a:;  - 1; - 2           | 3:2 | this does not line up with what stands above it",
        "a: 1;- b                | 2:1 | this does not line up with what stands above it",
        "a: \"x\" y              | 1:8 | this does not line up with what stands above it",
        "a:;\\t- 1               | 2:1 | a tab cannot stand here",
        "a: @x                   | 1:4 | a value cannot begin with \"@\"",
        "a: %x                   | 1:4 | a value cannot begin with \"%\"",
        "a: *                    | 1:4 | a value cannot begin with \"*\"",
        "a: 'x;b: y              | 1:4 | this quote is never closed",
        "a: 'x;b: 'y';c: 1       | 1:4 | this quote is closed only in line 2",
        "a: 1;b 2;c: 3;d: 4      | 2:1 | this line has no colon",
        "a:;  b 2;  c: 3         | 2:3 | this line has no colon",
        "- a 1;  b: 2            | 1:1 | this line has no colon",
        "a: \"\\q\"              | 1:6 | a backslash means something else in double quotes",
        "a: \"\\x\"              | 1:7 | a backslash means something else in double quotes",
        "a: {b: 1, c: 2;d: 3     | 2:2 | a comma or a closing bracket is missing before this",
        "a: [1, 2;b: 3           | 2:2 | a comma or a closing bracket is missing before this",
        "a: {b: 1 c: 2}          | 1:11 | a comma or a closing bracket is missing before this",
        "a: {b: 1, c: 2          | 1:4 | this bracket is never closed",
        "a: [                    | 1:5 | the file ends where a value is expected",
        "a: - 1                  | 1:4 | a list cannot begin on the line of its key",
        "a: }                    | 1:4 | \"}\" cannot stand here",
        "{a: 1}}                 | 1:7 | this stands outside everything",
        "[a]: b                  | 1:1 | a key of this file is a list or holds keys itself",
        "a: 1;---;b: 2           | 3:1 | this file holds more than one document",
        "``                      | 1:1 | this file is empty",
        "# nothing but a remark  | 1:1 | this file is empty"
      })
  void aTextThatIsNotYamlGetsOneDiagnosticInPlainWords(String text, String place, String message) {
    Outcome<YamlNode> outcome = read(text.replace(';', '\n').replace("\\t", "\t"));
    Diagnostic only = only(outcome);
    assertThat(only.name()).isEqualTo("yaml-syntax");
    assertThat(only.tier()).isEqualTo(Tier.SYNTAX);
    assertThat(only.message()).isEqualTo(message);
    assertThat(only.help()).isNotEmpty();
    Position from = only.primary().span().from();
    assertThat(from.line() + ":" + from.column()).isEqualTo(place);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"a: &x 1", "a: 1\nb: *a", "a: !t 2", "&k a: 1", "a: &x {b: 1}", "- !!set"})
  void namesReferencesAndTypesAreRefused(String text) {
    assertThat(only(read(text)).name()).isEqualTo("yaml-anchors");
  }

  /** Each line refers to the one before nine times: ten lines stand for a billion values. */
  @Test
  void aTextThatWouldGrowWithoutBoundIsHarmless() {
    StringBuilder bomb = new StringBuilder("a0: &a0 [x]\n");
    for (int i = 1; i < 10; i++) {
      bomb.append("a%d: &a%d [".formatted(i, i));
      bomb.append("*a%d, ".formatted(i - 1).repeat(9)).append("]\n");
    }
    assertThat(only(read(bomb.toString())).primary().span().from()).isEqualTo(new Position(1, 5));
  }

  @ParameterizedTest
  @ValueSource(strings = {"[", "{a: ", "- "})
  void deepNestingIsRefusedWhereItGoesTooDeep(String open) {
    Diagnostic only = only(read(open.repeat(200_000)));
    assertThat(only.message()).isEqualTo("lists and keys are nested deeper than 32");
  }

  @Test
  void charactersThatAreNotTextAreRefusedAtTheirPlace() {
    assertThat(only(read("a: b\u0000")).message())
        .isEqualTo("layout.yaml is not a text: it holds the character U+0000");
    assertThat(only(read("a: \u0007")).message())
        .isEqualTo("layout.yaml is not a text: it holds the character U+0007");
    assertThat(only(read("a: \uD83D")).primary().span().from()).isEqualTo(new Position(1, 4));
  }

  @Test
  void aLongLineAndALongFileAreRead() {
    String line = "word ".repeat(150_000).strip();
    YamlNode.Mapping root = (YamlNode.Mapping) root("a: " + line + "\n");
    assertThat(root.entries().get(0).value().span().text()).isEqualTo(line);
    String many = "- {name: W1, kind: home}\n".repeat(40_000);
    assertThat(((YamlNode.Sequence) root(many)).items()).hasSize(40_000);
  }

  /** Ten million letters would take the parser half a minute. */
  @Test
  void aLineBeyondAllMeasureIsRefusedAtOnce() {
    Diagnostic only = only(read("a: b\n# " + "W".repeat(10_000_000) + "\nc: d\n"));
    assertThat(only.message()).isEqualTo("this line is longer than 1000000 characters");
    assertThat(only.primary().span().from()).isEqualTo(new Position(2, 1));
  }

  @Property(seed = "1957")
  void anyTextIsReadOrRefusedWithAReason(@ForAll @StringLength(max = 40) String text) {
    Outcome<YamlNode> outcome = read(text);
    assertThat(outcome.value().isPresent() || outcome.hasErrors()).isTrue();
  }

  @Property(seed = "1957")
  void anyTextOfMarksIsReadOrRefusedWithAReason(@ForAll("marks") String text) {
    Outcome<YamlNode> outcome = read(text);
    assertThat(outcome.value().isPresent() || outcome.hasErrors()).isTrue();
  }

  @Provide
  Arbitrary<String> marks() {
    return Arbitraries.of(
            "a", "b: ", "- ", "{", "}", "[", "]", ",", "\n", "  ", "'", "\"", "?", "|", ">", "#",
            "\t", "---\n", "...", "%", "\r", "🚦", "\u0085", "\\", "1", "~", ": ")
        .list()
        .ofMaxSize(25)
        .map(parts -> String.join("", parts));
  }

  /** The text of every place, outer before inner, keys before values. */
  private static List<String> texts(YamlNode node) {
    List<String> texts = new ArrayList<>(List.of(node.span().text()));
    if (node instanceof YamlNode.Mapping mapping) {
      for (YamlNode.Entry entry : mapping.entries()) {
        texts.add(entry.key().span().text());
        texts.addAll(texts(entry.value()));
      }
    } else if (node instanceof YamlNode.Sequence sequence) {
      sequence.items().forEach(item -> texts.addAll(texts(item)));
    }
    return texts;
  }

  private static YamlNode root(String text) {
    Outcome<YamlNode> outcome = read(text);
    assertThat(outcome.diagnostics()).isEmpty();
    return outcome.value().orElseThrow();
  }

  private static Diagnostic only(Outcome<YamlNode> outcome) {
    List<Diagnostic> all = outcome.diagnostics();
    assertThat(all).hasSize(1);
    return all.get(0);
  }

  private static Outcome<YamlNode> read(String text) {
    return YamlReader.read(new SourceFile("layout.yaml", text));
  }
}
