package dev.doublet.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Severity;
import dev.doublet.source.Mention;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import dev.doublet.syntax.AspectsSyntax;
import dev.doublet.syntax.Tree;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.MatchResult;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A mistake in a book costs the declaration that it stands in, and no other. */
class BrokenBooksTest {
  private static final java.util.regex.Pattern WORD =
      java.util.regex.Pattern.compile("\"[^\"\n]*\"|[\\p{L}\\p{N}_/-]+|[{}(),]");

  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { normal maximum  slow 15 }
      colours { red yellow green }
      rhythms { flashing 50 per minute }
      head main { lamp top shows red, green, yellow }
      form one-head { top }
      plate number
      aspect "Clear" { number 2  allows normal then normal  on one-head show green }
      aspect "Approach" { number 1  allows normal then stop  on one-head show yellow }
      aspect "Stop" { number 0  allows stop  on one-head show red }
      """;

  @Test
  void aTextWithoutItsFirstMarkIsOneMistake() {
    Outcome<Rulebook> outcome =
        read(BOOK.replace("number 0  allows", "number 0  indicates Stop.\"  allows"));
    assertThat(outcome.diagnostics())
        .extracting(d -> d.message())
        .containsExactly("a text stands in quotation marks, as in \"Stop.\"");
    assertThat(outcome.value().orElseThrow().aspects())
        .extracting(Aspect::name)
        .containsExactly("Approach", "Clear");
  }

  @Test
  void nothingIsSaidOfTheNamesOfABrokenDeclaration() {
    Outcome<Rulebook> outcome =
        read(BOOK.replace("form one-head { top }", "form one-head { top over }"));
    Rulebook book = outcome.value().orElseThrow();
    assertThat(outcome.diagnostics()).hasSize(1);
    assertThat(book.forms()).isEmpty();
    assertThat(book.isWhole()).isFalse();
    assertThat(book.unread().mayDeclare(Mention.Kind.FORM, "one-head")).isTrue();
    assertThat(book.unread().mayDeclare(Mention.Kind.FORM, "two-head")).isFalse();
    assertThat(book.aspects()).hasSize(3).allMatch(a -> a.patterns().isEmpty());
  }

  @Test
  void whereTheNameItselfIsLostNothingIsSaidOfUnknownOnes() {
    Outcome<Rulebook> outcome = read(BOOK.replace("form one-head {", "form {"));
    assertThat(outcome.diagnostics()).hasSize(1);
    assertThat(outcome.value().orElseThrow().unread().kinds()).containsExactly(Mention.Kind.FORM);
  }

  @Test
  void aBrokenSpeedLeavesTheOthersAndNoAspectAllowsSomethingElse() {
    Rulebook book = read(BOOK.replace("slow 15", "slow fifteen")).value().orElseThrow();
    assertThat(book.speeds()).extracting(Speed::name).containsExactly("normal");
    Rulebook other = read(BOOK.replace("normal maximum", "normal")).value().orElseThrow();
    assertThat(other.speeds()).extracting(Speed::name).containsExactly("slow");
    Permission clear = other.aspect("Clear").orElseThrow().permission();
    assertThat(clear.here()).isInstanceOf(Movement.Unread.class);
    assertThat(clear.here().permitsNoMoreThan(clear.next())).isFalse();
  }

  @Test
  void aPatternOfAnUnknownColourIsNotThereAndTheOthersAre() {
    Rulebook book = read(BOOK.replace("show green", "show greem or yellow")).value().orElseThrow();
    assertThat(book.aspect("Clear").orElseThrow().patterns())
        .extracting(Pattern::words)
        .containsExactly("yellow");
  }

  @Test
  void namesAreFoundInBrokenDeclarationsToo() {
    String text = BOOK.replace("on one-head show red }", "on one-head shwo red }");
    Mentions mentions = new Mentions(text);
    assertThat(mentions.of(Mention.Kind.FORM, "one-head")).hasSize(4);
    assertThat(mentions.of(Mention.Kind.COLOUR, "red")).hasSize(3);
    assertThat(mentions.of(Mention.Kind.ASPECT, "Stop")).containsExactly("\"Stop\"");
  }

  @Test
  void everyNameIsFoundWhereItIsDeclaredAndUsed() {
    Mentions mentions = new Mentions(BOOK);
    assertThat(mentions.of(Mention.Kind.SPEED, "normal")).hasSize(4);
    assertThat(mentions.of(Mention.Kind.PLATE, "number")).hasSize(1);
    assertThat(mentions.of(Mention.Kind.RHYTHM, "flashing")).hasSize(1);
    assertThat(mentions.of(Mention.Kind.HEAD, "main")).hasSize(1);
    Rulebook book = read(BOOK).value().orElseThrow();
    SourceFile file = book.span().file();
    int use = BOOK.indexOf("one-head show green");
    assertThat(book.mentions().at(file, use).orElseThrow().name()).isEqualTo("one-head");
    assertThat(book.mentions().at(file, use + 8).orElseThrow().declares()).isFalse();
    assertThat(book.mentions().at(file, use + 9)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"germany-light"})
  void withoutAnyOneWordOrLineAllElseIsThere(String name) throws IOException {
    SourceFile whole = shipped(name);
    List<Span> parts = new ArrayList<>();
    for (MatchResult word : WORD.matcher(whole.text()).results().toList()) {
      parts.add(whole.span(word.start(), word.end()));
    }
    for (int line = 1; line < whole.lineCount(); line++) {
      parts.add(whole.span(whole.lineStart(line), whole.lineStart(line + 1)));
    }
    holds(whole, parts);
  }

  @Tag("slow")
  @ParameterizedTest
  @ValueSource(
      strings = {"germany-light", "britain-four-aspect", "britain-junctions", "brackwater"})
  void withoutAnyOneCharacterAllElseIsThere(String name) throws IOException {
    SourceFile whole = shipped(name);
    List<Span> parts = new ArrayList<>();
    for (int i = 0; i < whole.text().length(); i++) {
      parts.add(whole.span(i, i + 1));
    }
    holds(whole, parts);
  }

  /** Each part left out by itself leaves every declaration that it is no part of. */
  private static void holds(SourceFile file, List<Span> parts) {
    Rulebook whole = read(file.name(), file.text()).value().orElseThrow();
    Tree tree = AspectsSyntax.parse(file).value().orElseThrow();
    int several = 0;
    for (Span part : parts) {
      String text = file.text().substring(0, part.start()) + file.text().substring(part.end());
      Outcome<Rulebook> outcome = read(file.name(), text);
      Set<String> left = names(outcome.value().orElseThrow());
      for (Mention name : whole.mentions().all()) {
        boolean apart =
            name.declares()
                && name.kind() != Mention.Kind.FIGURE
                && name.span().file().name().equals(file.name())
                && tree.declarations().stream()
                    .noneMatch(d -> isIn(d.span(), part) && touches(d.span(), name.span()));
        if (apart) {
          assertThat(left)
              .as("without \"%s\" of line %d", part.text(), part.from().line())
              .contains(name.kind() + " " + name.name());
        }
      }
      several += errors(outcome) > 1 ? 1 : 0;
    }
    assertThat(several).isLessThanOrEqualTo(parts.size() / 40);
  }

  /** What follows a declaration on its line may have been meant for it. */
  private static boolean isIn(Span declaration, Span part) {
    int lastLine = declaration.file().position(declaration.end()).line();
    return touches(declaration, part) || part.from().line() == lastLine;
  }

  private static boolean touches(Span one, Span other) {
    return one.start() <= other.end() && other.start() <= one.end();
  }

  private static long errors(Outcome<Rulebook> outcome) {
    return outcome.diagnostics().stream().filter(d -> d.severity() == Severity.ERROR).count();
  }

  private static Set<String> names(Rulebook book) {
    Set<String> names = new HashSet<>();
    book.aspects().forEach(a -> names.add("ASPECT " + a.name()));
    // What letters stand for hangs on the numbers of the book; that they are letters does not.
    book.mentions().all().stream()
        .filter(m -> m.kind() == Mention.Kind.LETTER)
        .forEach(m -> names.add("LETTER " + m.name()));
    for (Form form : book.forms()) {
      names.add("FORM " + form.name());
      form.places().forEach(place -> names.add("PLACE " + place));
    }
    book.plates().forEach(p -> names.add("PLATE " + p.name()));
    book.heads().forEach(h -> names.add("HEAD " + h.name()));
    book.speeds().forEach(s -> names.add("SPEED " + s.name()));
    book.colours().forEach(c -> names.add("COLOUR " + c.name()));
    book.rhythms().forEach(r -> names.add("RHYTHM " + r.name()));
    return names;
  }

  private static SourceFile shipped(String name) throws IOException {
    Path path = Path.of("../rulebooks", name + ".aspects");
    return new SourceFile(path.toString(), Files.readString(path));
  }

  private static Outcome<Rulebook> read(String text) {
    return read("book.aspects", text);
  }

  private static Outcome<Rulebook> read(String name, String text) {
    SourceReader reader =
        path -> {
          try {
            return new SourceFile(path, path.equals(name) ? text : Files.readString(Path.of(path)));
          } catch (IOException none) {
            throw new SourceReader.Unreadable("there is no such file");
          }
        };
    return RulebookResolver.resolve(name, reader);
  }

  /** The texts at which names stand. */
  private record Mentions(String text) {
    List<String> of(Mention.Kind kind, String name) {
      return read(text).value().orElseThrow().mentions().all().stream()
          .filter(m -> m.kind() == kind && m.name().equals(name))
          .map(m -> m.span().text())
          .toList();
    }
  }
}
