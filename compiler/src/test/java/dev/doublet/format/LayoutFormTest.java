package dev.doublet.format;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;

/** What holds of the form of every layout. That it says the same is asked of the YAML library. */
class LayoutFormTest {
  private static final List<String> LAYOUTS = layouts();

  private static List<String> layouts() {
    try (Stream<Path> walk = Files.walk(Path.of("../examples"))) {
      List<String> texts = new ArrayList<>();
      for (Path path : walk.filter(p -> p.toString().endsWith("layout.yaml")).sorted().toList()) {
        texts.add(Files.readString(path));
      }
      return texts;
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static List<Spacing> changes(String text) {
    Outcome<List<Spacing>> outcome =
        Format.changes(Format.Language.LAYOUT, new SourceFile("layout.yaml", text));
    assertThat(outcome.diagnostics()).as(text).isEmpty();
    return outcome.value().orElseThrow(() -> new AssertionError("refused: " + text));
  }

  private static String format(String text) {
    return Format.apply(new SourceFile("layout.yaml", text), changes(text));
  }

  /** What the library makes of a text, as a tree of Java's own collections. */
  private static Object meaning(String text) {
    return new Yaml(new LoaderOptions()).load(new StringReader(text));
  }

  /** Every comment, as it stands in layouts without "#" in texts. */
  private static List<String> comments(String text) {
    return text.lines()
        .filter(line -> line.contains("#"))
        .map(line -> line.substring(line.indexOf('#')).stripTrailing())
        .toList();
  }

  @Property(tries = 100, seed = "1957")
  void whereverBlanksAndBlankLinesStandTheFormIsOne(@ForAll long start) {
    Random random = new Random(start);
    String layout = LAYOUTS.get(random.nextInt(LAYOUTS.size()));
    String text = scattered(layout, random, 1 + random.nextInt(4));
    assertThat(meaning(text)).as("the test's own text").isEqualTo(meaning(layout));
    assertThat(format(text)).as(text).isEqualTo(layout);
  }

  @Property(tries = 100, seed = "1958")
  void noCommentIsLostAndNothingSaysSomethingElse(@ForAll long start) {
    Random random = new Random(start);
    String layout = LAYOUTS.get(random.nextInt(LAYOUTS.size()));
    String text = remarked(scattered(layout, random, 1 + random.nextInt(4)), random);
    String formatted = format(text);
    assertThat(meaning(formatted)).isEqualTo(meaning(layout));
    assertThat(comments(formatted)).as(text).isEqualTo(comments(text));
    assertThat(format(formatted)).isEqualTo(formatted);
    assertThat(formatted).doesNotContain(" \n", "\n\n\n").endsWith("\n");
  }

  /** Steps of another width, and other blanks in lines and behind them. */
  private static String scattered(String layout, Random random, int width) {
    StringBuilder text = new StringBuilder();
    for (String line : layout.split("\n", -1)) {
      String said = line.stripLeading();
      int steps = (line.length() - said.length()) / 2;
      int remark = said.startsWith("#") ? 0 : said.indexOf(" #");
      String code = remark < 0 ? said : said.substring(0, remark);
      String comment = remark < 0 ? "" : said.substring(remark);
      if (code.startsWith("- ")) {
        code = "-" + " ".repeat(2 * width - 1) + inFlow(code.substring(2), random);
      } else {
        code = inFlow(code, random);
      }
      text.append(" ".repeat(2 * width * steps)).append(code);
      text.append(comment.isEmpty() || remark == 0 ? "" : blanks(random)).append(comment);
      text.append(blanks(random));
      // One blank line may have become more, but none comes where none was.
      text.append(line.isEmpty() ? "\n".repeat(1 + random.nextInt(3)) : "\n");
    }
    return text.toString().stripTrailing() + (random.nextBoolean() ? "" : "\n\n \n");
  }

  /** Other blanks behind colons and commas, and at brackets. */
  private static String inFlow(String code, Random random) {
    return code.replace(": ", ":" + " ".repeat(1 + random.nextInt(3)))
        .replace(", ", blanks(random) + "," + blanks(random) + " ".repeat(random.nextInt(2)))
        .replace("{", "{" + blanks(random))
        .replace("}", blanks(random) + "}")
        .replace("[", "[" + blanks(random))
        .replace("]", blanks(random) + "]");
  }

  private static String blanks(Random random) {
    return " ".repeat(random.nextInt(3));
  }

  /** Comments behind lines and on lines of their own, as far in as the line below. */
  private static String remarked(String text, Random random) {
    StringBuilder remarked = new StringBuilder();
    for (String line : text.split("\n", -1)) {
      int indent = line.length() - line.stripLeading().length();
      if (random.nextInt(6) == 0) {
        remarked.append(" ".repeat(random.nextBoolean() ? indent : random.nextInt(20)));
        remarked.append("# note: {\"").append(random.nextInt(9)).append("  \n");
      }
      remarked.append(line);
      if (random.nextInt(6) == 0 && !line.isBlank() && !line.contains("#")) {
        remarked.append(" #").append(random.nextInt(9)).append(" \ud83d\udea6");
      }
      remarked.append(random.nextInt(9) == 0 ? "\n\n\n" : "\n");
    }
    return remarked.toString();
  }

  @Test
  void listsStandBelowTheirKeys() {
    assertThat(format("a:\n    - b: 1\n      c:   [ 1,2 ]\n    -   d: { }\ne: 1\n"))
        .isEqualTo("a:\n- b: 1\n  c: [1, 2]\n- d: {}\ne: 1\n");
    assertThat(format("- - 1\n  - 2\n-\n   - 3\n")).isEqualTo("- - 1\n  - 2\n-\n  - 3\n");
    assertThat(format("a:\n b:\n   - c:\n      - 1\n")).isEqualTo("a:\n  b:\n  - c:\n    - 1\n");
  }

  /** A comment goes with what follows, or with the block in whose column it stands. */
  @Test
  void commentsAtTheEndOfABlockStayInIt() {
    assertThat(format("a:\n    b: 1\n    # in a\nc: 1\n"))
        .isEqualTo("a:\n  b: 1\n  # in a\nc: 1\n");
    assertThat(format("a:\n    b: 1\n# of c\nc: 1\n")).isEqualTo("a:\n  b: 1\n# of c\nc: 1\n");
    assertThat(format("a:\n    b:\n        c: 1\n    # in a\n        # in b\n"))
        .isEqualTo("a:\n  b:\n    c: 1\n  # in a\n    # in b\n");
    assertThat(format("a:\n    - b\n    # last\n")).isEqualTo("a:\n- b\n# last\n");
    assertThat(format("a:\n# first\n    b: 1\n")).isEqualTo("a:\n  # first\n  b: 1\n");
  }

  @Test
  void aTextGoesOnInALastLineWithoutEnd() {
    assertThat(format("a:   b\n  c")).isEqualTo("a: b\n  c\n");
    assertThat(format("a:\n   b\n     c   # d")).isEqualTo("a:\n  b\n     c   # d\n");
  }

  @Test
  void commentsBehindLinesStandBelowEachOther() {
    assertThat(format("a: 1 # one\nbcd: 2  #two\n\ne: 3 # three\n"))
        .isEqualTo("a: 1     # one\nbcd: 2   #two\n\ne: 3   # three\n");
  }

  /** A text in quotation marks or in a block of lines is not touched. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "a: |\n  one\n   two  \n\n\nb: 1\n",
        "a: |+\n  one\n\n   \n \nb: 1\n",
        "a: |+\n  one\n\n   \n",
        "a: |\n  one",
        "a: >-\n  one\n\n\n  two\n",
        "a: |2\n    one\nb: 1\n",
        "a: \"one  # two  \\\n   three\"\n",
        "a: 'it''s {  }  ,'\n",
        "a: one\n  two\n    three\n",
        "a: {b: 1,\n      c: 2,   # three\n   d: [\n  1\n ]}\n",
        "a: \"\ud83d\ude82   x\"   # \ud83d\ude82\n",
        "a: b#c\n",
        "---\na: 1\n",
        "a:\n",
        "\"a\": {}\n",
        "a: | # why\n  b\n",
        "{a: 1, b: [], c: {d: ~}}\n",
        "[1, 2]\n",
      })
  void whatIsInItsFormStays(String text) {
    assertThat(format(text)).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "a : 1|a: 1",
        "{a : 1,b:  2 }|{a: 1, b: 2}",
        "{'a':1}|{'a': 1}",
        "{a: , b}|{a: , b}",
        "[ [1 ],{ } ]|[[1], {}]",
        "a: 1#b|a: 1#b",
        "a:    b   c|a: b   c",
        "-    a|- a"
      })
  void blanksInALine(String before, String after) {
    assertThat(format(before)).isEqualTo(after + "\n");
    assertThat(meaning(after)).isEqualTo(meaning(before));
  }

  @Test
  void linesOfABlockOfTextHoldTheLinesAroundThemWhereTheyAre() {
    String text = "a:\n      b: |\n         one\n      c:   2\n";
    assertThat(meaning(format(text))).isEqualTo(meaning(text));
    String deep = "a:\n b:\n  c:\n   d: |\n    one\n   e:   2\n";
    assertThat(format(deep)).isEqualTo("a:\n b:\n  c:\n   d: |\n    one\n   e: 2\n");
  }

  @Test
  void lineEndsStayAndOddOnesBecomeAsTheFirst() {
    assertThat(format("a:  1\r\nb: 2\n\r\n\r\n\rc: 3")).isEqualTo("a: 1\r\nb: 2\r\n\r\nc: 3\r\n");
    assertThat(format("a:  1\nb: 2\r\n")).isEqualTo("a: 1\nb: 2\n");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "a: &b 1\nc: *b\n",
        "a:\n\t- b\n",
        "a: {b\n",
        "a: 1\n---\nb: 2\n",
        "// a\nb: 1",
        ""
      })
  void whatCannotBeReadIsLeft(String text) {
    Outcome<List<Spacing>> outcome =
        Format.changes(Format.Language.LAYOUT, new SourceFile("layout.yaml", text));
    assertThat(outcome.value()).isEmpty();
    assertThat(outcome.diagnostics()).isNotEmpty();
  }
}
