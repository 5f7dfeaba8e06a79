package dev.doublet.layout.read;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.facts.CheckOptions;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.rulebook.Unread;
import dev.doublet.source.Mention;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A mistake in a rulebook is told once, however much of a layout stands on what it breaks, and a
 * mistake in the layout beside it is told too.
 */
class BrokenRulebookTest {
  private static final Pattern WORD = Pattern.compile("\"[^\"\n]*\"|[\\p{L}\\p{N}_/-]+|[{}(),]");
  private static final String BRACKWATER = "examples/brackwater/layout.yaml";
  private static final String BOOK = "rulebooks/brackwater.aspects";

  /** A mistake made in a layout. */
  private record Mistake(String right, String wrong, Mention.Kind kind, String name, String said) {}

  private static final List<Mistake> MISTAKES =
      List.of(
          new Mistake("bits: 2", "bits: 9", null, "", "\"bits\" cannot be 9"),
          new Mistake("openlcb", "openlbc", null, "", "\"speaks\" cannot be \"openlbc\""),
          new Mistake("volts: 5, ", "", null, "", "supply \"shed\" has no \"volts\""),
          unknown("form", Mention.Kind.FORM, "form: permissive", "form: permisive", "permisive"),
          unknown("head", Mention.Kind.HEAD, "[three-lamp]", "[tree-lamp]", "tree-lamp"),
          unknown("plate", Mention.Kind.PLATE, "number, grade", "number, grad", "grad"),
          unknown("aspect", Mention.Kind.ASPECT, "Slow Clear]", "Slow Claer]", "Slow Claer"),
          unknown("colour", Mention.Kind.COLOUR, "amber: [255", "ambre: [255", "ambre"));

  private static Mistake unknown(
      String what, Mention.Kind kind, String right, String wrong, String name) {
    return new Mistake(right, wrong, kind, name, "no " + what + " is called \"" + name + '"');
  }

  @ParameterizedTest
  @CsvSource({
    "examples/yard/layout.yaml,     rulebooks/brackwater.aspects,         31",
    "examples/brackwater/layout.yaml, rulebooks/brackwater-heads.aspects, 11",
    "examples/terminus/layout.yaml, examples/terminus/saltmarsh.aspects,  9",
    "examples/dead-led/layout.yaml, examples/dead-led/heath.aspects,      3"
  })
  void withoutAWordOrLineTheLayoutHasNoMistakeOfItsOwn(String layout, String book, int each)
      throws Exception {
    holds(layout, book, every(each, wordsAndLines(file(book))));
  }

  @Tag("slow")
  @ParameterizedTest
  @CsvSource({
    "examples/brackwater/layout.yaml, rulebooks/brackwater-heads.aspects, 7",
    "examples/terminus/layout.yaml,   examples/terminus/saltmarsh.aspects, 5"
  })
  void withoutACharacterTheLayoutHasNoMistakeOfItsOwn(String layout, String book, int each)
      throws Exception {
    SourceFile text = file(book);
    List<Span> parts = new ArrayList<>();
    IntStream.range(0, text.text().length()).forEach(i -> parts.add(text.span(i, i + 1)));
    holds(layout, book, every(each, parts));
  }

  @Test
  void aMistakeOfTheLayoutIsToldBesideOneOfTheBook() throws Exception {
    besideMistakes(every(97, wordsAndLines(file(BOOK))));
  }

  @Tag("slow")
  @Test
  void aMistakeOfTheLayoutIsToldBesideAnyOfTheBook() throws Exception {
    besideMistakes(every(11, wordsAndLines(file(BOOK))));
  }

  @ParameterizedTest
  @ValueSource(strings = {"missing", "not text", "empty", "folder"})
  void mistakesThatDoNotHangOnTheBookAreToldWithoutOne(String why) throws Exception {
    String layout = mistaken(MISTAKES.get(0)).replace("speaks: openlcb", "speaks: openlbc");
    List<String> said =
        messages(
            BRACKWATER,
            path -> {
              if (path.equals(BRACKWATER)) {
                return new SourceFile(path, layout);
              } else if (why.equals("empty")) {
                return new SourceFile(path, "");
              } else if (why.equals("not text")) {
                return new SourceFile(path, "\0\1\2");
              }
              throw new SourceReader.Unreadable("it is " + why);
            });
    assertThat(said)
        .hasSize(3)
        .contains("\"bits\" cannot be 9", "\"speaks\" cannot be \"openlbc\"");
  }

  @Test
  void aLayoutThatNamesNoBookIsReadAllTheSame() throws Exception {
    String layout = mistaken(MISTAKES.get(0)).replaceFirst("\nrulebook: .*", "");
    assertThat(messages(BRACKWATER, path -> new SourceFile(path, layout)))
        .containsExactly("this layout has no \"rulebook\"", "\"bits\" cannot be 9");
  }

  /** With a part left out of a book, exactly what is said of the book alone is said. */
  private static void holds(String layout, String book, List<Span> parts) throws Exception {
    List<String> whole = messages(layout, BrokenRulebookTest::file);
    int broken = 0;
    for (Span part : parts) {
      List<String> of = new ArrayList<>();
      List<Diagnostic> alone = said(root(layout), without(book, part));
      alone.stream().filter(BrokenRulebookTest::isError).forEach(d -> of.add(d.message()));
      if (!of.isEmpty()) {
        broken++;
        List<Diagnostic> both = said(layout, without(book, part));
        assertThat(both.stream().filter(BrokenRulebookTest::isError).map(Diagnostic::message))
            .as("without \"%s\" of line %d", part.text(), part.from().line())
            .containsExactlyInAnyOrderElementsOf(of);
        assertThat(
                both.stream()
                    .filter(Diagnostic::isFinding)
                    .filter(d -> d.primary().span().file().name().equals(layout))
                    .map(Diagnostic::message))
            .as("warnings without \"%s\" of line %d", part.text(), part.from().line())
            .isSubsetOf(whole);
      }
    }
    assertThat(broken).isGreaterThan(parts.size() / 3);
  }

  /** Each mistake of the layout is told, but for names that the broken part may declare. */
  private static void besideMistakes(List<Span> parts) throws Exception {
    int told = 0;
    for (Span part : parts) {
      SourceReader broken = without(BOOK, part);
      List<String> alone = errors(BOOK, broken);
      if (alone.isEmpty()) {
        continue;
      }
      Unread unread = RulebookResolver.resolve(BOOK, broken).value().orElseThrow().unread();
      for (Mistake mistake : MISTAKES) {
        List<String> both = new ArrayList<>(alone);
        if (mistake.kind() == null || !unread.mayDeclare(mistake.kind(), mistake.name())) {
          both.add(mistake.said());
          told++;
        }
        String layout = mistaken(mistake);
        SourceReader reader =
            path -> path.equals(BRACKWATER) ? new SourceFile(path, layout) : broken.read(path);
        assertThat(errors(BRACKWATER, reader))
            .as("%s without \"%s\" of line %d", mistake, part.text(), part.from().line())
            .containsExactlyInAnyOrderElementsOf(both);
      }
    }
    assertThat(told).isGreaterThan(parts.size() * MISTAKES.size() / 3);
  }

  private static String mistaken(Mistake mistake) throws Exception {
    String text = file(BRACKWATER).text();
    int at = text.indexOf(mistake.right());
    return text.substring(0, at) + mistake.wrong() + text.substring(at + mistake.right().length());
  }

  private static SourceReader without(String book, Span part) {
    String whole = part.file().text();
    String text = whole.substring(0, part.start()) + whole.substring(part.end());
    return path -> path.equals(book) ? new SourceFile(path, text) : file(path);
  }

  private static List<Diagnostic> said(String root, SourceReader reader) {
    return root.endsWith(".yaml")
        ? Compiler.checkLayout(root, reader, CheckOptions.ALL).diagnostics()
        : Compiler.checkRulebook(root, reader, CheckOptions.ALL).diagnostics();
  }

  private static List<String> messages(String root, SourceReader reader) {
    return said(root, reader).stream()
        .filter(Diagnostic::isFinding)
        .map(Diagnostic::message)
        .toList();
  }

  private static List<String> errors(String root, SourceReader reader) {
    return said(root, reader).stream()
        .filter(BrokenRulebookTest::isError)
        .map(Diagnostic::message)
        .toList();
  }

  private static boolean isError(Diagnostic said) {
    return said.severity() == Severity.ERROR;
  }

  /** The book that a layout names. */
  private static String root(String layout) throws Exception {
    String named = file(layout).text().replaceFirst("(?s).*\nrulebook: (\\S+).*", "$1");
    return SourceReader.beside(layout, named);
  }

  private static List<Span> wordsAndLines(SourceFile file) {
    List<Span> parts = new ArrayList<>();
    for (MatchResult word : WORD.matcher(file.text()).results().toList()) {
      parts.add(file.span(word.start(), word.end()));
    }
    for (int line = 1; line < file.lineCount(); line++) {
      parts.add(file.span(file.lineStart(line), file.lineStart(line + 1)));
    }
    return parts;
  }

  private static List<Span> every(int each, List<Span> parts) {
    return IntStream.range(0, parts.size())
        .filter(i -> i % each == 0)
        .mapToObj(parts::get)
        .toList();
  }

  private static SourceFile file(String path) throws SourceReader.Unreadable {
    try {
      return new SourceFile(path, Files.readString(Path.of("..", path)));
    } catch (IOException e) {
      throw new SourceReader.Unreadable("there is no such file");
    }
  }
}
