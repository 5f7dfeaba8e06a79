package dev.doublet.layout.read;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.golden.Case;
import dev.doublet.layout.Layout;
import dev.doublet.report.TextRendering;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What becomes of whole layout files: what is said of them, and what they resolve to. */
class LayoutCasesTest {

  static List<Path> pages() {
    return Case.pages(Path.of("src/test/resources/cases/layout"));
  }

  @ParameterizedTest
  @MethodSource("pages")
  void eachCaseGivesExactlyItsOutput(Path page) {
    Case input = Case.of(page);
    Outcome<Layout> outcome = LayoutResolver.resolve(input.root(), input.reader());
    String said = new TextRendering(false).draw(outcome.diagnostics());
    input.verify(said + outcome.value().map(LayoutListing::of).orElse(""));
  }
}
