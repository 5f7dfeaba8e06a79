package dev.doublet.syntax;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.comments.CommentType;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.events.Event;
import org.yaml.snakeyaml.events.ScalarEvent;
import org.yaml.snakeyaml.reader.StreamReader;
import org.yaml.snakeyaml.scanner.ScannerImpl;
import org.yaml.snakeyaml.tokens.CommentToken;
import org.yaml.snakeyaml.tokens.Token;

/** How YAML texts are split, asked of the library and of the reader. */
class YamlLexemesTest {
  /** A text of everything that layouts hold. */
  private static final String TEXT =
      """
      # of the file
      layout: "Mill # Lane" # one
      a: {b: [1, 'it''s'], c: ~}
      note: >-   # why
        two
        # no comment

      # lists
      list:
      - x: one
          goes on
        y: 2  # two \ud83d\udea6
      -
        - 3
      """;

  private static YamlLexemes lexemes(String text) {
    return YamlLexemes.of(file(text)).orElseThrow();
  }

  private static SourceFile file(String text) {
    return new SourceFile("layout.yaml", text);
  }

  /** Each text without one of its characters, and each with another one in its place. */
  private static List<String> edits(String text) {
    List<String> edits = new ArrayList<>();
    for (int i = 0; i < text.length(); i++) {
      edits.add(text.substring(0, i) + text.substring(i + 1));
      for (String other : List.of(" ", "\n", "#", "&", "?", "-", ":", "[", "}", "/", "\u00a0")) {
        edits.add(text.substring(0, i) + other + text.substring(i + 1));
      }
    }
    return edits;
  }

  @Test
  void what_is_surely_read_has_no_fault_for_the_reader() throws IOException {
    List<String> texts = edits(TEXT);
    texts.add(Files.readString(Path.of("../examples/brackwater/layout.yaml")));
    int sure = 0;
    for (String text : texts) {
      SourceFile file = new SourceFile("layout.yaml", text);
      if (YamlLexemes.of(file).filter(YamlLexemes::areSurelyRead).isPresent()) {
        sure++;
        assertThat(YamlReader.read(file).diagnostics())
            .as(text)
            .noneMatch(d -> d.tier() == Tier.SYNTAX);
      }
    }
    assertThat(sure).isGreaterThan(texts.size() / 4);
    assertThat(lexemes(texts.get(texts.size() - 1)).areSurelyRead()).isTrue();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "# a\n",
        "a: &b 1\n",
        "a: *b\n",
        "a: !t 1\n",
        "a: 1\n---\nb: 2\n",
        "[a]: 1\n",
        "? a\n: 1\n",
        "{[a]: 1}\n",
        "// a\n",
        "a:\u00a01\n"
      })
  void what_a_layout_has_no_use_for_is_left_to_the_reader(String text) {
    SourceFile file = new SourceFile("layout.yaml", text);
    assertThat(YamlLexemes.of(file).filter(YamlLexemes::areSurelyRead)).isEmpty();
  }

  @Test
  void deep_texts_and_long_lines_are_left_to_the_reader() {
    assertThat(lexemes("[".repeat(40) + "]".repeat(40)).areSurelyRead()).isFalse();
    assertThat(lexemes("[".repeat(9) + "]".repeat(9)).areSurelyRead()).isTrue();
    assertThat(lexemes("a: " + "b".repeat(1_000_001)).areSurelyRead()).isFalse();
  }

  /** The library can tell of comments as well, which takes it longer. */
  @Test
  void comments_are_those_that_the_library_finds() {
    int compared = 0;
    for (String text : edits(TEXT)) {
      Optional<YamlLexemes> split = YamlLexemes.of(new SourceFile("layout.yaml", text));
      Optional<List<CommentToken>> comments = comments(text);
      if (split.isPresent() && comments.isPresent()) {
        compared++;
        List<String> found =
            split.get().all().stream()
                .filter(l -> l.kind() == YamlLexeme.Kind.COMMENT)
                .map(l -> l.span().text())
                .toList();
        List<String> expected =
            comments.get().stream()
                .filter(c -> split.get().all().stream().noneMatch(l -> isInBlock(c, l)))
                .map(c -> "#" + c.getValue().stripTrailing())
                .toList();
        assertThat(found).as(text).isEqualTo(expected);
      }
    }
    assertThat(compared).isGreaterThan(1000);
  }

  /** True for a comment behind the sign of a block of lines, which belongs to it. */
  private static boolean isInBlock(CommentToken comment, YamlLexeme lexeme) {
    // Before the signal's picture, places in code points are those in the text.
    int at = comment.getStartMark().getIndex();
    return lexeme.kind() == YamlLexeme.Kind.BLOCK
        && lexeme.span().start() <= at
        && at < lexeme.span().end();
  }

  private static Optional<List<CommentToken>> comments(String text) {
    LoaderOptions options = new LoaderOptions();
    options.setProcessComments(true);
    List<CommentToken> comments = new ArrayList<>();
    try {
      ScannerImpl scanner = new ScannerImpl(new StreamReader(text), options);
      while (scanner.checkToken()) {
        Token token = scanner.getToken();
        if (token instanceof CommentToken comment
            && comment.getCommentType() != CommentType.BLANK_LINE) {
          comments.add(comment);
        }
      }
      return Optional.of(comments);
    } catch (YAMLException fault) {
      return Optional.empty();
    }
  }

  @Test
  void texts_that_differ_in_a_value_or_a_comment_say_something_else() {
    assertThat(lexemes("a: |\n b\n").areThoseOf(file("a:   |\n b\n"))).isTrue();
    assertThat(lexemes("a: |\n  b\n").areThoseOf(file("a: |2\n  b\n"))).isFalse();
    assertThat(lexemes("a: |\n b\n").areThoseOf(file("a: |\n  b\n"))).isFalse();
    assertThat(lexemes("a: 1 # b\n").areThoseOf(file("a: 1\n"))).isFalse();
    assertThat(lexemes("a: 1 # b\n").areThoseOf(file("a: 1 # c\n"))).isFalse();
    assertThat(lexemes("a: [b c]\n").areThoseOf(file("a: [b, c]\n"))).isFalse();
    assertThat(lexemes("a: b\n  c\n").areThoseOf(file("a: b c\n"))).isFalse();
    assertThat(lexemes("a:\n  - b\n").areThoseOf(file("a:\n- b\n"))).isTrue();
    assertThat(lexemes("a:\n  b:\n  c: 1\n").areThoseOf(file("a:\n  b:\n    c: 1\n"))).isFalse();
  }

  @Test
  void texts_longer_than_the_library_takes_by_itself_are_split() {
    String text = "a: [\n" + "  one, two,\n".repeat(400_000) + "]\n";
    assertThat(text.length()).isGreaterThan(4_000_000);
    assertThat(lexemes(text).areSurelyRead()).isTrue();
  }

  /** What is said of equal tokens, held against the parser of the library. */
  @Test
  void texts_with_the_same_lexemes_are_parsed_alike() {
    int alike = 0;
    for (String text :
        List.of(TEXT, "a:\n- b\n- c: 1\n  d:\n    - e\n    - - f\n      - g\nh: 2\n")) {
      YamlLexemes lexemes = lexemes(text);
      for (int i = 0; i <= text.length(); i++) {
        String before = text.substring(0, i);
        List<String> others = new ArrayList<>(List.of(before + " " + text.substring(i)));
        if (before.endsWith(" ")) {
          others.add(before.substring(0, i - 1) + text.substring(i));
        }
        if (before.endsWith("\n")) {
          others.add(before + "  " + text.substring(i));
        }
        for (String other : others) {
          if (lexemes.areThoseOf(file(other))) {
            alike++;
            assertThat(events(other)).as(other).isEqualTo(events(text));
          }
        }
      }
    }
    assertThat(alike).isGreaterThan(50);
  }

  private static List<String> events(String text) {
    List<String> events = new ArrayList<>();
    for (Event event : new Yaml().parse(new StringReader(text))) {
      String value = event instanceof ScalarEvent s ? s.getScalarStyle() + s.getValue() : "";
      events.add(event.getEventId() + value);
    }
    return events;
  }
}
