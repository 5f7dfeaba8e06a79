package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.table.TableReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Numbered two-way switches handed in to the firmware, as a panel does: LEDs are what the reader in
 * Java shows after the same basic commands.
 */
@Tag("slow")
class SwitchesTest {
  private static final String LAYOUT =
      """
      layout: Coalpit Yard
      rulebook: book.aspects
      otherwise: most-restrictive
      buses:
        switches: {speaks: dcc, first-decoder: %d}
      controllers:
        west:
          flash: 28672
          ram: 1536
          chains:
            main:
              signals:
              - {name: W1, form: one-head, heads: [searchlight], by: binary-coded, bits: 2, bus: switches, address: 1}
              - {name: W2, form: one-head, heads: [searchlight], by: one-per-output, bus: switches, address: 3}
      """;

  @TempDir private Path folder;
  private Session session;

  @BeforeEach
  void write() throws Exception {
    session = Yard.in(folder);
    String table =
        Files.readString(CompiledC.FIRMWARE.resolve("table.h"))
            .replace("yard", "west")
            .replace("BUS_DCC", "BUS_SWITCHES")
            .replace("YARD", "WEST");
    Files.writeString(folder.resolve("west_table.h"), table);
  }

  private Path build(int first) throws Exception {
    Files.writeString(folder.resolve("layout.yaml"), LAYOUT.formatted(first));
    assertThat(session.run("build", "layout.yaml", "--output", "out")).as(session.out()).isZero();
    return CompiledC.program(
        folder,
        "panel" + first,
        List.of(
            "-DTABLE_HEADER=\"west_table.h\"",
            "-I" + folder,
            "-I" + folder.resolve("out"),
            CompiledC.source(folder, "panel_board.c"),
            "panel.c"));
  }

  /**
   * Decoder 1 answers to address 1, so that is binary 4 (OpenLCB Event Identifiers Technical Note,
   * 22 July 2024); or decoder 0, so that it is 0 (from memory).
   */
  @ParameterizedTest
  @CsvSource({"1, 4", "0, 0"})
  void a_panel_sets_signals_by_its_switches(int first, int binary) throws Exception {
    Path program = build(first);
    TableReader reader = TableReader.open(Files.readAllBytes(folder.resolve("out/west.bin")));
    // Switch 2 is thrown and bounces for 15 ms; then 4, 1 and 3, and 16, to which nobody listens.
    String typed =
        "2000 2 1\n2005 2 0\n2008 2 1\n2015 2 0\n2015 2 1\n4000 4 1\n5000 16 1\n6000 1 1\n6001 2 0\n"
            + "8000 3 1\n10000 2 1\n10005 2 0\n12000 16 0\n";
    List<String> shown = new ArrayList<>();
    List<String> expected = new ArrayList<>();
    for (String line : CompiledC.run(List.of(program.toString()), typed).lines().toList()) {
      shown.add(line.split(" ")[2]);
    }
    // At first all are handed in as they stand, which is reverse.
    for (int i = 0; i < 4; i++) {
      reader.accessory(0, binary + i, 0, 0);
    }
    expected.add(leds(reader, 1990));
    // Number, position, and for how long it stays so, in milliseconds.
    int[][] thrown = {{2, 1, 1965}, {4, 1, 2000}, {1, 1, 1}, {2, 0, 1999}, {3, 1, 2000}};
    int now = 2035;
    for (int[] one : thrown) {
      reader.accessory(0, binary + one[0] - 1, one[1], now);
      now += one[2];
      add(expected, leds(reader, now - 1));
    }
    assertThat(shown).isEqualTo(expected);
    assertThat(expected.size()).isGreaterThan(3);
  }

  private static void add(List<String> all, String leds) {
    if (!all.get(all.size() - 1).equals(leds)) {
      all.add(leds);
    }
  }

  private static String leds(TableReader reader, int now) {
    return HexFormat.of().withUpperCase().formatHex(reader.leds(0, now));
  }
}
