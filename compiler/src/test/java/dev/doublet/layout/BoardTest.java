package dev.doublet.layout;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
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
    assertThat(board.begin()).isEqualTo(each * most(kept, chip, EACH, "begin-frame"));
    assertThat(board.dark()).isEqualTo(each * most(kept, chip, EACH, "dark"));
    Map<Board.Lamps, Board.Cost> steady = new EnumMap<>(Board.Lamps.class);
    Map<Board.Lamps, Board.Cost> fading = new EnumMap<>(Board.Lamps.class);
    for (Board.Lamps lamps : Board.Lamps.values()) {
      boolean plain = lamps == Board.Lamps.PLAIN;
      List<String> alone = List.of(lamps.name().toLowerCase(Locale.ROOT).replace('_', '-'));
      String fades = plain ? "" : "fading-";
      steady.put(
          lamps,
          new Board.Cost(
              each * most(kept, chip, plain ? STEADY : alone, "unit"),
              each * most(kept, chip, plain ? STEADY : alone, "lamp")));
      fading.put(
          lamps,
          new Board.Cost(
              each * most(kept, chip, plain ? FADING : alone, fades + "unit"),
              each * most(kept, chip, plain ? FADING : alone, fades + "lamp")));
    }
    assertThat(board.steady()).isEqualTo(steady);
    assertThat(board.fading()).isEqualTo(fading);
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
                  board.steady().get(Board.Lamps.PLAIN).unit() / mhz,
                  board.steady().get(Board.Lamps.PLAIN).lamp() / mhz,
                  board.dark() / mhz,
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
