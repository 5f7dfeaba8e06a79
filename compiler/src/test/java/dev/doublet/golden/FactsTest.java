package dev.doublet.golden;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Facts come from outside: each row says how it was come by, and from where. */
class FactsTest {
  private static final Path FOLDER = Path.of("src/test/resources/facts");
  private static final String COMMA_OUTSIDE_QUOTES = ",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)";

  static List<Path> files() throws IOException {
    try (Stream<Path> walk = Files.walk(FOLDER)) {
      return walk.filter(Files::isRegularFile).sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("files")
  void each_row_has_a_mark_and_a_source(Path file) throws IOException {
    List<String> lines = Files.readAllLines(file);
    List<String> heads = cells(lines.get(0));
    assertThat(heads).endsWith("mark", "source");
    assertThat(lines).hasSizeGreaterThan(1);
    for (String line : lines.subList(1, lines.size())) {
      List<String> cells = cells(line);
      assertThat(cells).as(line).hasSameSizeAs(heads);
      assertThat(cells.subList(cells.size() - 2, cells.size())).as(line).noneMatch(String::isBlank);
    }
  }

  private static List<String> cells(String line) {
    return List.of(line.split(COMMA_OUTSIDE_QUOTES, -1));
  }
}
