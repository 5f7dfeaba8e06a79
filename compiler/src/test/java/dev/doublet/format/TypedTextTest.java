package dev.doublet.format;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.source.SourceFile;
import dev.doublet.syntax.AspectsSyntax;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Our own texts while somebody types in them: each is set and then stays, or is left as it is. */
class TypedTextTest {
  private static final List<SourceFile> TEXTS = texts();

  private static final List<String> TYPED =
      List.of(
          " ",
          "  ",
          "\n",
          "\r\n",
          "\r",
          "\t",
          "#",
          "# c\n",
          "\n# c\n",
          "\"",
          "'",
          "{",
          "}",
          "[",
          "]",
          "(",
          ")",
          ",",
          ":",
          "- ",
          "? ",
          "|\n",
          ": >-\n        q\n",
          "|+\n   x\n\n\n",
          "&a ",
          "*a ",
          "!x ",
          "---\n",
          "...\n",
          "~",
          "\u00A0",
          "\uFEFF",
          "\ud83d\udea6",
          " or ",
          " with ",
          "on ");

  private static List<SourceFile> texts() {
    List<SourceFile> texts = new ArrayList<>();
    for (String folder : List.of("../rulebooks", "../examples")) {
      try (Stream<Path> walk = Files.walk(Path.of(folder))) {
        for (Path path : walk.sorted().toList()) {
          if (path.toString().endsWith(".aspects") || path.toString().endsWith("layout.yaml")) {
            texts.add(new SourceFile(path.toString(), Files.readString(path)));
          }
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return texts;
  }

  @Property(tries = 300, seed = "1957")
  void someLinesWithAWordTooManyOrALetterTooFew(@ForAll long start) {
    Random random = new Random(start);
    SourceFile whole = TEXTS.get(random.nextInt(TEXTS.size()));
    int first = 1 + random.nextInt(whole.lineCount());
    int last = Math.min(whole.lineCount(), first + random.nextInt(40));
    String lines = whole.text().substring(whole.lineStart(first), whole.lineStart(last));
    StringBuilder typed = new StringBuilder(lines);
    for (int i = random.nextInt(3); i > 0; i--) {
      int at = random.nextInt(typed.length() + 1);
      if (random.nextBoolean()) {
        typed.insert(at, TYPED.get(random.nextInt(TYPED.size())));
      } else if (at < typed.length()) {
        typed.deleteCharAt(at);
      }
    }
    isSetOrLeft(new SourceFile(whole.name(), typed.toString()));
  }

  @Tag("slow")
  @Property(tries = 10_000, seed = "1958")
  void manyMore(@ForAll long start) {
    someLinesWithAWordTooManyOrALetterTooFew(start);
  }

  private static void isSetOrLeft(SourceFile file) {
    Outcome<List<Spacing>> outcome = changes(file);
    if (outcome.value().isEmpty()) {
      assertThat(outcome.diagnostics()).as(file.text()).isNotEmpty();
      return;
    }
    String set = Format.apply(file, outcome.value().get());
    assertThat(letters(set)).isEqualTo(letters(file.text()));
    assertThat(changes(new SourceFile(file.name(), set)).value().orElseThrow()).as(set).isEmpty();
  }

  private static Outcome<List<Spacing>> changes(SourceFile file) {
    boolean layout = file.name().endsWith(".yaml");
    return Format.changes(layout ? Format.Language.LAYOUT : Format.Language.ASPECTS, file);
  }

  private static String letters(String text) {
    return text.replaceAll("[\\s\\u00A0\\uFEFF]", "");
  }

  /** So long that its form, which is longer, is still read; in one declaration or one line. */
  @Tag("slow")
  @ParameterizedTest
  @ValueSource(
      strings = {
        "colours { |red |}",
        "aspect \"A\" { |number 1 |}",
        "expect red |or red |on one means nothing",
        "aspect \"A\" { on one show red |or red |}",
        "plate |a,|b",
        "|# c\n|",
        "|plate a # c\n|",
        "aspect \"A\" { |on one show red # c\n|}",
        "|form a { b }\n|",
        "colours { |#\n|}",
        "rulebook \"|x|\"",
        "accept a of |\"x\", |\"y\" because \"z\""
      })
  @Timeout(60)
  void longTextsTakeTheirTimeAndNoMore(String pattern) {
    String[] parts = pattern.split("\\|", -1);
    int times = (AspectsSyntax.LONGEST / 8) / parts[1].length();
    isSetOrLeft(new SourceFile("long.aspects", parts[0] + parts[1].repeat(times) + parts[2]));
  }
}
