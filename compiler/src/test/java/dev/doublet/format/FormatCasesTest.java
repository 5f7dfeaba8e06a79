package dev.doublet.format;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.golden.Case;
import dev.doublet.report.TextRendering;
import dev.doublet.source.SourceFile;
import dev.doublet.syntax.AspectsSyntax;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Texts and their form, for people to read; and that every text of the project keeps its sense. */
class FormatCasesTest {
  private static final Path CASES = Path.of("src/test/resources/cases");

  static List<Path> pages() {
    return Case.pages(CASES.resolve("format"));
  }

  private static Outcome<List<Spacing>> changes(SourceFile file) {
    boolean layout = file.name().endsWith(".yaml");
    return Format.changes(layout ? Format.Language.LAYOUT : Format.Language.ASPECTS, file);
  }

  @ParameterizedTest
  @MethodSource("pages")
  void aTextHasTheFormThatItsPageShows(Path page) {
    Case input = Case.of(page);
    SourceFile file = new SourceFile(input.root(), input.files().get(input.root()));
    Outcome<List<Spacing>> outcome = changes(file);
    input.verify(
        outcome
            .value()
            .map(changes -> Format.apply(file, changes))
            .orElseGet(() -> new TextRendering(false).draw(outcome.diagnostics())));
  }

  /**
   * Our own books and layouts are in their form; {@code format rulebooks examples} sets them so.
   */
  @Test
  void ourBooksAndLayoutsAreInTheirForm() throws IOException {
    List<Path> ours = new ArrayList<>();
    for (String folder : List.of("../rulebooks", "../examples")) {
      try (Stream<Path> walk = Files.walk(Path.of(folder))) {
        walk.filter(p -> p.toString().endsWith(".aspects") || p.toString().endsWith("layout.yaml"))
            .forEach(ours::add);
      }
    }
    assertThat(ours).hasSizeGreaterThan(12);
    for (Path path : ours) {
      SourceFile file = new SourceFile(path.toString(), Files.readString(path));
      assertThat(changes(file).value().orElseThrow())
          .as("run: compiler/doublet format %s", path)
          .isEmpty();
    }
  }

  /** Every text of every golden case and of every page of a check, the broken ones too. */
  @Test
  void everyTextOfTheProjectKeepsItsSenseOrIsLeftAsItIs() {
    List<Path> pages = new ArrayList<>(Case.pages(CASES));
    pages.addAll(Case.pages(Path.of("src/main/java")));
    int set = 0;
    int left = 0;
    for (Path page : pages) {
      for (Map.Entry<String, String> text : Case.of(page).files().entrySet()) {
        if (!text.getKey().endsWith(".aspects") && !text.getKey().endsWith(".yaml")) {
          continue;
        }
        SourceFile file = new SourceFile(text.getKey(), text.getValue());
        Outcome<List<Spacing>> outcome = changes(file);
        if (outcome.value().isPresent()) {
          set++;
          keepsItsSense(file, outcome.value().get());
        } else {
          left++;
          assertThat(outcome.diagnostics()).as("%s: %s", page, file.text()).isNotEmpty();
        }
      }
    }
    assertThat(set).isGreaterThan(250);
    assertThat(left).isGreaterThan(10);
  }

  private static void keepsItsSense(SourceFile file, List<Spacing> changes) {
    SourceFile after = new SourceFile(file.name(), Format.apply(file, changes));
    assertThat(changes(after).value().orElseThrow()).as(after.text()).isEmpty();
    if (file.name().endsWith(".aspects")) {
      assertThat(Pieces.of(after.text())).isEqualTo(Pieces.of(file.text()));
      assertThat(AspectsSyntax.parse(after).diagnostics()).isEmpty();
    } else {
      assertThat(after.text().replaceAll("\\s", "")).isEqualTo(file.text().replaceAll("\\s", ""));
    }
  }
}
