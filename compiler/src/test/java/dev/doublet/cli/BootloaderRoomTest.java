package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Tables longer than a bootloader has room for, on the board of 8 bits. */
class BootloaderRoomTest {
  @TempDir private Path folder;
  private Session session;

  @BeforeEach
  void begin() throws IOException {
    session = Yard.in(folder);
  }

  @Test
  void a_table_too_long_is_refused_where_the_board_says_what_fits() throws IOException {
    layout("board: avr-16mhz");
    assertThat(session.run("build", "layout.yaml", "--output", "out")).isEqualTo(1);
    assertThat(session.out()).contains("bytes of flash and has 14336", "[memory-too-small]");
    assertThat(folder.resolve("out")).doesNotExist();
  }

  @Test
  void a_program_of_your_own_gets_its_table_and_is_told_that_no_bootloader_takes_it()
      throws IOException {
    layout("board: avr-16mhz\n    flash: 65536\n    ram: 65536");
    assertThat(session.run("build", "layout.yaml", "--output", "out")).as(session.out()).isZero();
    assertThat(Files.size(folder.resolve("out/west.bin"))).isGreaterThan(14_336);
    assertThat(folder.resolve("out/west.hex")).doesNotExist();
    assertThat(session.out())
        .contains("no west.hex: a bootloader has room for 14336 bytes of table");
  }

  @Test
  void bytes_of_the_two_longest_chains_are_counted_as_the_firmware_keeps_no_more()
      throws IOException {
    String chain = "      c%d: {signals: [{name: C%d, kind: one}, {gap: 200}]}\n";
    Files.writeString(
        folder.resolve("layout.yaml"),
        head("board: avr-16mhz")
            + chain.formatted(1, 1)
            + chain.formatted(2, 2)
            + chain.formatted(3, 3)
            + chain.formatted(4, 4));
    assertThat(session.run("build", "layout.yaml", "--output", "out")).as(session.out()).isZero();
    // 68 for the reader, 3 a signal, and twice a chain of 201 LEDs and 3 bytes over.
    int needed = 68 + 4 * 3 + 2 * (201 * 3 + 3);
    assertThat(session.out()).contains(needed + " of 1696 bytes of ram");
  }

  private static String head(String memory) {
    return """
        layout: Coalpit Yard
        rulebook: book.aspects
        otherwise: most-restrictive
        buses:
          house: {speaks: mqtt, topics: yard}
        kinds:
          one: {form: one-head, heads: [searchlight], by: topic}
        controllers:
          west:
            %s
            chains:
        """
        .formatted(memory);
  }

  private void layout(String memory) throws IOException {
    String signals =
        "      m: {signals: [{name: S1 to S1100, kind: one}, {name: S1101 to S2200, kind: one}]}\n";
    Files.writeString(folder.resolve("layout.yaml"), head(memory) + signals);
  }
}
