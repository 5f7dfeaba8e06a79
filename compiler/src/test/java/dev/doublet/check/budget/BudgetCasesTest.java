package dev.doublet.check.budget;

import dev.doublet.golden.Case;
import dev.doublet.golden.Run;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is said of power and time, page by page. */
class BudgetCasesTest {
  private static final Set<String> CHECKS =
      Set.of(
          "voltage-too-high",
          "voltage-too-low",
          "wire-too-thin",
          "supply-too-small",
          "slow-chain",
          "slow-board");

  static List<Path> pages() {
    return Case.pages(Path.of("src/test/resources/cases/budget"));
  }

  @ParameterizedTest
  @MethodSource("pages")
  void what_is_said_is_as_printed(Path page) {
    Case input = Case.of(page);
    input.verify(
        Run.check(input, d -> CHECKS.contains(d.name()) || d.severity().word().equals("error")));
  }
}
