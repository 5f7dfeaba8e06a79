package dev.doublet.check;

import dev.doublet.golden.Case;
import dev.doublet.golden.Run;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What a whole run says, with notes, page by page. */
class CheckCasesTest {

  static List<Path> pages() {
    return Case.pages(Path.of("src/test/resources/cases/check"));
  }

  @ParameterizedTest
  @MethodSource("pages")
  void whatIsSaidIsAsPrinted(Path page) {
    Case input = Case.of(page);
    input.verify(Run.check(input, true));
  }
}
