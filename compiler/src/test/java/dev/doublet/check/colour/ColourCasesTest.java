package dev.doublet.check.colour;

import dev.doublet.golden.Case;
import dev.doublet.golden.Run;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is said of colours, page by page. */
class ColourCasesTest {
  private static final Set<String> CHECKS =
      Set.of("colour-out-of-region", "colours-too-close", "lamps-merge");

  static List<Path> pages() {
    return Case.pages(Path.of("src/test/resources/cases/colour"));
  }

  @ParameterizedTest
  @MethodSource("pages")
  void whatIsSaidIsAsPrinted(Path page) {
    Case input = Case.of(page);
    input.verify(
        Run.check(input, d -> CHECKS.contains(d.name()) || d.severity().word().equals("error")));
  }
}
