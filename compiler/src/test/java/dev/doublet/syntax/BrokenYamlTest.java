package dev.doublet.syntax;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is left of a YAML text that is broken in one place or a few. */
class BrokenYamlTest {

  /** Unread values stand in angle brackets, lines without a key in question marks. */
  @ParameterizedTest(name = "{0}")
  @CsvSource(
      quoteCharacter = '`',
      delimiter = '|',
      value = {
        "a: b: c;d: 1                     | {a: <b: c>, d: 1}",
        "a: 1;b;c: 2                      | {a: 1, c: 2, ?b?}",
        "a: 1;- b                         | {a: 1, ?- b?}",
        "a: 1;  b: 2;c: 3                 | {a: 1, c: 3, ?b: 2?}",
        "a:;  - 1; - 2;  - 3;b: 4         | {a: [1, <- 2/  - 3>], b: 4}",
        "a:;- 1;- @;- 3;b: 4              | {a: [1, <@>, 3], b: 4}",
        "a:;- @;b: 4                      | {a: [<@>], b: 4}",
        "a: 'x;b: y;c: 'z';d: 1           | {a: <'x>, b: y, c: z, d: 1}",
        "a: {b: 1, c: 2;d: 3;e: 4         | {a: <{b: 1, c: 2>, d: 3, e: 4}",
        "a: {b: 1,;  c: [2,;  d: 3};e: 4  | {a: {b: 1, d: 3, ?c: [2,?}, e: 4}",
        "s:;- {n: 1, k: x;- {n: 2}        | {s: [<{n: 1, k: x>, {n: 2}]}",
        "s:;- {n: \"1};- {n: \"2\"}       | {s: [<{n: \"1}>, {n: 2}]}",
        "s:;- n: \"1;  k: x;- n: \"2\"    | {s: [{n: <\"1>, k: x}, {n: 2}]}",
        "a:;  b:;    f: @;    g: 2;  c: 3 | {a: {b: {f: <@>, g: 2}, c: 3}}",
        "a:;  b:;    f 3;    g: 2;  c: 3  | {a: {b: {g: 2, ?f 3?}, c: 3}}",
        "a:;  b;    f: 3;    g: 2;  c: 3  | {a: {c: 3, ?b/    f: 3/    g: 2?}}",
        "a:;  b:;   f: 3;    g: 2;    h: 4;  c: 3  | {a: {b: {g: 2, h: 4, ?f: 3?}, c: 3}}",
        "a: &x {b: 1};c: *x;e: 3          | {a: <&x {b: 1}>, c: <*x>, e: 3}",
        "d: !t 2;e: 3                     | {d: <!t 2>, e: 3}",
        "&k a: 1;b: 2                     | {b: 2, ?&k a: 1?}",
        "a: 1;---;b: 2                    | {a: 1, ?b: 2?}",
        "[a]: b;c: d                      | {c: d, ?[a]: b?}",
        "a: {[b]: c};d: 1                 | {a: <{[b]: c}>, d: 1}",
        "{a: 1}}                          | <{a: 1}}>",
        "🚦: @x;🚦🚦: 🚦                  | {🚦: <@x>, 🚦🚦: 🚦}"
      })
  void aMistakeCostsTheItemThatItStandsIn(String text, String left) {
    Outcome<YamlNode> outcome = read(text.replace(';', '\n'));
    assertThat(outcome.diagnostics()).hasSize(1);
    assertThat(show(outcome.value().orElseThrow())).isEqualTo(left);
  }

  @Test
  void mistakesApartAreToldEach() {
    Outcome<YamlNode> outcome = read("a: @\nb: 1\nc: [1\nd: 2\ne: 'x\nf: 3\n");
    assertThat(show(outcome.value().orElseThrow()))
        .isEqualTo("{a: <@>, b: 1, c: <[1>, d: 2, e: <'x>, f: 3}");
    assertThat(outcome.diagnostics())
        .extracting(d -> d.primary().span().from().line())
        .containsExactly(1, 4, 5);
  }

  /** The eighth costs all that comes after it too. */
  @Test
  void afterEightMistakesTheRestIsNotRead() {
    String text = "a: 1\n" + "x%d: @\ny%d: 1\n".repeat(20).formatted(counted(20));
    Outcome<YamlNode> outcome = read(text);
    assertThat(outcome.diagnostics()).hasSize(8);
    YamlNode.Mapping root = (YamlNode.Mapping) outcome.value().orElseThrow();
    assertThat(root.entries()).hasSize(1 + 7 * 2);
    assertThat(root.isWhole()).isFalse();
    assertThat(root.unread().get(0).text()).startsWith("x7: @").endsWith("y19: 1\n");
  }

  /** What goes wrong at any one place of a layout is one mistake, and leaves most of it. */
  @ParameterizedTest
  @ValueSource(strings = {"dead-led", "mistakes", "yard"})
  void withoutAnyOneCharacterOrLineTheRestIsRead(String example) throws IOException {
    String name = "../examples/" + example + "/layout.yaml";
    SourceFile whole = new SourceFile(name, Files.readString(Path.of(name)));
    for (int i = 0; i < whole.text().length(); i++) {
      holds(whole, whole.span(i, i + 1));
    }
    for (int line = 1; line < whole.lineCount(); line++) {
      holds(whole, whole.span(whole.lineStart(line), whole.lineStart(line + 1)));
    }
  }

  /** Leaves a part out: at most one mistake is told, and other top keys are as they were. */
  private static void holds(SourceFile whole, Span part) {
    String text = whole.text().substring(0, part.start()) + whole.text().substring(part.end());
    Outcome<YamlNode> outcome = read(text);
    String what = "without \"" + part.text() + "\" of line " + part.from().line();
    List<Diagnostic> mistakes =
        outcome.diagnostics().stream().filter(d -> d.name().startsWith("yaml")).toList();
    assertThat(mistakes).as(what).hasSizeLessThanOrEqualTo(1);
    Set<String> left = new HashSet<>(entries(outcome.value().orElseThrow()));
    List<String> before = entries(read(whole.text()).value().orElseThrow());
    assertThat(before.stream().filter(e -> !left.contains(e)).count())
        .as(what)
        .isLessThanOrEqualTo(2);
  }

  /** The keys of a layout's first level, with what they hold. */
  private static List<String> entries(YamlNode root) {
    List<String> entries = new ArrayList<>();
    if (root instanceof YamlNode.Mapping mapping) {
      mapping.entries().forEach(e -> entries.add(e.key().text() + ": " + show(e.value())));
    }
    return entries;
  }

  private static Object[] counted(int pairs) {
    Object[] counted = new Object[pairs * 2];
    for (int i = 0; i < counted.length; i++) {
      counted[i] = i / 2;
    }
    return counted;
  }

  private static String show(YamlNode node) {
    if (node instanceof YamlNode.Mapping mapping) {
      List<String> parts = new ArrayList<>();
      mapping.entries().forEach(e -> parts.add(e.key().text() + ": " + show(e.value())));
      mapping.unread().forEach(span -> parts.add("?" + line(span) + "?"));
      return "{" + String.join(", ", parts) + "}";
    }
    if (node instanceof YamlNode.Sequence sequence) {
      return sequence.items().stream()
          .map(BrokenYamlTest::show)
          .collect(Collectors.joining(", ", "[", "]"));
    }
    return node instanceof YamlNode.Scalar scalar ? scalar.text() : "<" + line(node.span()) + ">";
  }

  private static String line(Span span) {
    return span.text().strip().replace("\n", "/");
  }

  private static Outcome<YamlNode> read(String text) {
    return YamlReader.read(new SourceFile("layout.yaml", text));
  }
}
