package dev.doublet.chart;

import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.golden.Case;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What controllers need of what they have, in lines. */
class BudgetTextTest {
  private static final Path CASES = Path.of("src/test/resources/cases/needs");

  static List<Path> pages() {
    return Case.pages(CASES);
  }

  @ParameterizedTest
  @MethodSource("pages")
  void each_case_gives_exactly_its_lines(Path page) {
    Case input = Case.of(page);
    input.verify(text(input));
  }

  private static String text(Case input) {
    Layout layout = LayoutResolver.resolve(input.root(), input.reader()).value().orElseThrow();
    return BudgetText.text(LayoutFacts.of(layout, CheckOptions.ALL));
  }
}
