package dev.doublet.chart;

import dev.doublet.golden.Case;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Charts of which aspects may follow which. */
class SequenceChartTest {
  private static final Path CASES = Path.of("src/test/resources/cases/sequence");
  private static final Path ROOT = Path.of("..");

  static List<Path> cases() {
    return Case.pages(CASES);
  }

  /** A case names a file of the project where its input is an empty line. */
  @ParameterizedTest
  @MethodSource("cases")
  void the_chart_is_the_one_worked_out_by_hand(Path page) {
    Case input = Case.of(page);
    SourceReader reader =
        path -> {
          String given = input.files().getOrDefault(path, "\n");
          return new SourceFile(path, given.isBlank() ? fromProject(path) : given);
        };
    Rulebook book = RulebookResolver.resolve(input.root(), reader).value().orElseThrow();
    input.verify(SequenceChart.of(book).text());
  }

  private static String fromProject(String path) throws SourceReader.Unreadable {
    try {
      return Files.readString(ROOT.resolve(path));
    } catch (IOException e) {
      throw new SourceReader.Unreadable("there is no such file");
    }
  }
}
