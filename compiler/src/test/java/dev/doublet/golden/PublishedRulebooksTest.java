package dev.doublet.golden;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.facts.CheckOptions;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Expectation;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is found in each of the rulebooks, on a page that says why. */
class PublishedRulebooksTest {
  private static final Path BOOKS = Path.of("../rulebooks");

  static List<Path> pages() {
    return Case.pages(Path.of("src/test/resources/cases/rulebooks"));
  }

  @ParameterizedTest
  @MethodSource("pages")
  void a_rulebook_gives_exactly_what_its_page_lists(Path page) {
    String said =
        Compiler.checkRulebook(
                name(page) + ".aspects", PublishedRulebooksTest::read, CheckOptions.ALL)
            .diagnostics()
            .stream()
            .map(PublishedRulebooksTest::line)
            .collect(Collectors.joining());
    Case.of(page).verify(said);
  }

  @Test
  void every_rulebook_has_a_page() throws IOException {
    try (Stream<Path> files = Files.list(BOOKS)) {
      assertThat(
              files
                  .filter(f -> f.toString().endsWith(".aspects"))
                  .map(PublishedRulebooksTest::name)
                  .filter(n -> !n.endsWith("-heads")))
          .containsExactlyInAnyOrderElementsOf(
              pages().stream().map(PublishedRulebooksTest::name).toList());
    }
  }

  /** Whoever changes a book is told where it no longer says what its sources do. */
  @ParameterizedTest
  @MethodSource("pages")
  void a_rulebook_has_a_test_of_its_own_that_names_each_aspect_and_passes(Path page) {
    String test = "tests/" + name(page) + ".aspects";
    Compiler.Checked<Rulebook> checked =
        Compiler.checkRulebook(test, PublishedRulebooksTest::read, CheckOptions.ALL);
    assertThat(checked.diagnostics())
        .noneMatch(d -> d.name().equals("failed-expectation") || d.severity() == Severity.ERROR);
    List<Expectation> expected =
        checked.value().orElseThrow().expectations().stream()
            .filter(e -> e.span().file().name().equals(test))
            .toList();
    assertThat(checked.value().orElseThrow().aspects())
        .allSatisfy(
            aspect ->
                assertThat(expected)
                    .anyMatch(
                        e ->
                            e.words().contains('"' + aspect.name() + '"')
                                || e.words().contains('"' + aspect.family() + '"')));
  }

  /** The demo railway's own book says plates in every way that the language has. */
  static List<Path> pagesOfRealBooks() {
    return pages().stream().filter(p -> !name(p).equals("brackwater")).toList();
  }

  /** What several aspects show alike is said once, with "as … with … plate". */
  @ParameterizedTest
  @MethodSource("pagesOfRealBooks")
  void a_rulebook_writes_no_pattern_twice(Path page) {
    Rulebook book =
        RulebookResolver.resolve(name(page) + ".aspects", PublishedRulebooksTest::read)
            .value()
            .orElseThrow();
    List<String> written = new ArrayList<>();
    for (Aspect aspect : book.aspects()) {
      aspect.patterns().stream()
          .filter(p -> !p.span().text().startsWith("as "))
          .forEach(p -> written.add(p.form().name() + " " + p.words()));
    }
    assertThat(written).isNotEmpty().doesNotHaveDuplicates();
  }

  private static String line(Diagnostic diagnostic) {
    return diagnostic.severity().word()
        + " "
        + diagnostic.name()
        + ": "
        + diagnostic.message()
        + "\n";
  }

  private static String name(Path file) {
    return file.getFileName().toString().replaceFirst("\\.[a-z]+$", "");
  }

  private static SourceFile read(String path) throws SourceReader.Unreadable {
    try {
      return new SourceFile(path, Files.readString(BOOKS.resolve(path)));
    } catch (IOException e) {
      throw new SourceReader.Unreadable("there is no such file");
    }
  }
}
