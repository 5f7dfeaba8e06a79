package dev.doublet.layout;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The boards that layouts name have the figures that the chip benchmark keeps, and no others. */
class BoardTest {
  private static final List<String> STEADY = List.of("blocks200", "cycling200", "scatter200");
  private static final List<String> FADING = List.of("glow200");
  private static final List<String> EACH =
      List.of("blocks200", "cycling200", "scatter200", "glow200");
  private static final int UNITS = 200;

  @ParameterizedTest
  @CsvSource({
    "avr-16mhz, avr, 1",
    "cortex-m0-48mhz, m0, 2",
    "cortex-m3-72mhz, m3, 2",
    "rv32-108mhz, rv32, 2"
  })
  void figures_are_those_that_the_benchmark_keeps(String word, String chip, int each)
      throws IOException {
    Board board = Board.ALL.stream().filter(b -> b.word().equals(word)).findFirst().orElseThrow();
    Map<String, Integer> kept = kept();
    int begin = each * most(kept, chip, EACH, "begin-frame");
    int dark = each * most(kept, chip, EACH, "dark");
    assertThat(board.steady())
        .isEqualTo(
            new Board.Cost(
                begin,
                each * most(kept, chip, STEADY, "unit"),
                each * most(kept, chip, STEADY, "lamp"),
                dark));
    assertThat(board.fading())
        .isEqualTo(
            new Board.Cost(
                begin,
                each * most(kept, chip, FADING, "unit"),
                each * most(kept, chip, FADING, "lamp"),
                dark));
    assertThat(board.command()).isEqualTo(each * most(kept, chip, EACH, "command"));
    assertThat(board.broadcast())
        .isEqualTo(each * ((most(kept, chip, EACH, "broadcast") + UNITS - 1) / UNITS));
  }

  @Test
  void the_page_of_the_firmware_tells_the_same() throws IOException {
    List<String> page = Files.readAllLines(Path.of("../examples/firmware/README.md"));
    for (Board board : Board.ALL) {
      double mhz = board.megahertz();
      assertThat(page)
          .contains(
              String.format(
                  Locale.ROOT,
                  "| `%s` | %d KB, %d KB | %,d and %,d bytes | %.1f, %.1f, %.1f us | %.0f us |",
                  board.word(),
                  board.flashOfAll() / 1024,
                  board.ramOfAll() / 1024,
                  board.flash(),
                  board.ram(),
                  board.steady().unit() / mhz,
                  board.steady().lamp() / mhz,
                  board.steady().dark() / mhz,
                  Math.ceil(board.command() / mhz)));
    }
  }

  private static int most(
      Map<String, Integer> kept, String chip, List<String> layouts, String figure) {
    return layouts.stream()
        .map(layout -> chip + " " + layout + ":" + figure)
        .filter(kept::containsKey)
        .mapToInt(kept::get)
        .max()
        .orElseThrow();
  }

  private static Map<String, Integer> kept() throws IOException {
    Map<String, Integer> kept = new HashMap<>();
    try (Stream<String> lines = Files.lines(Path.of("src/test/chip/figures.txt"))) {
      lines
          .map(line -> line.split(" "))
          .forEach(parts -> kept.put(parts[0] + " " + parts[1], Integer.valueOf(parts[2])));
    }
    return kept;
  }
}
