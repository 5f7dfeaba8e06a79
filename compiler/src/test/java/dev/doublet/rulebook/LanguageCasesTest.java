package dev.doublet.rulebook;

import dev.doublet.golden.Case;
import dev.doublet.report.TextRendering;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is said of rulebooks, page by page. */
class LanguageCasesTest {

  static List<Path> pages() {
    return Case.pages(Path.of("src/test/resources/cases/language"));
  }

  @ParameterizedTest
  @MethodSource("pages")
  void saysExactlyWhatThePageExpects(Path page) {
    Case golden = Case.of(page);
    var outcome = RulebookResolver.resolve(golden.root(), golden.reader());
    golden.verify(new TextRendering(false).draw(outcome.diagnostics()));
  }
}
