package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The firmware examples compile without a warning, beside the tables that their comments have one
 * build; and the one with light of every sort is run through an evening.
 */
@Tag("slow")
class FirmwareExampleTest {
  private static final int RED = 0;
  private static final int GREEN = 1;
  private static final int YELLOW = 2;

  @ParameterizedTest
  @CsvSource({
    "gcc, yard, firmware/signals.c",
    "gcc, yard, firmware/dcc.c",
    "gcc, yard, firmware/line.c",
    "gcc, yard, firmware/store.c",
    "gcc, yard, firmware/panel.c",
    "avr-gcc, yard, firmware/panel.c",
    "avr-gcc, yard, firmware/signals.c",
    "avr-gcc, yard, firmware/dcc.c",
    "avr-gcc, yard, firmware/line.c",
    "avr-gcc, yard, firmware/store.c",
    "avr-gcc, yard, firmware/atmega328p.c",
    "gcc, terminus, terminus/terminus.c",
    "avr-gcc, terminus, terminus/terminus.c"
  })
  void it_compiles_without_a_warning(
      String compiler, String layout, String source, @TempDir Path folder) throws Exception {
    List<String> command = command(compiler, layout, folder);
    command.addAll(List.of("-c", "examples/" + source, "-o", folder.resolve("o").toString()));
    if (compiler.startsWith("avr")) {
      command.add("-mmcu=atmega328p");
    }
    assertThat(Toolchain.output(command)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({"6, ''", "7, atmega328p.c has pins for six chains"})
  void more_chains_than_the_chip_has_pins_for_are_not_compiled(
      int chains, String said, @TempDir Path folder) throws Exception {
    List<String> command = command("avr-gcc", "yard", folder);
    Path table = folder.toAbsolutePath().resolve("many.h");
    Files.writeString(
        table, "#include \"table.h\"\n#undef TABLE_CHAINS\n#define TABLE_CHAINS " + chains + "\n");
    command.add("-DTABLE_HEADER=\"" + table + "\"");
    command.addAll(List.of("-c", "examples/firmware/signals.c", "-mmcu=atmega328p"));
    command.addAll(List.of("-o", folder.resolve("o").toString()));
    String output = Toolchain.output(command);
    assertThat(output).contains(said);
    assertThat(output.isEmpty()).isEqualTo(said.isEmpty());
  }

  /**
   * Every byte of a writing, and a change within one; FirmwarePartsTest cuts the store by itself.
   */
  @Test
  void states_are_those_of_before_a_cut_of_power_at_whatever_byte(@TempDir Path folder)
      throws Exception {
    List<String> command = command("gcc", "yard", folder);
    Path lives = Toolchain.resource("power_cuts.c", folder);
    Path program = folder.resolve("lives");
    command.removeAll(List.of("-std=c99"));
    command.addAll(List.of("-std=gnu99", lives.toString(), "-o", program.toString()));
    for (String part : List.of("line", "store")) {
      command.add("examples/firmware/" + part + ".c");
    }
    assertThat(Toolchain.output(command)).isEmpty();
    List<String> lines = Toolchain.output(List.of(program.toString())).lines().toList();
    assertThat(lines.get(0)).matches("(\\d+) bytes: first \\1, second 1, neither 0");
    assertThat(lines.get(1)).matches("[1-9]\\d* bytes, first: as before power was lost");
    assertThat(lines.get(2)).isEqualTo("second: as before power was lost");
    assertThat(lines).hasSize(3);
  }

  /** One frame of a chain. */
  private record Frame(int time, int chain, List<Integer> bytes) {
    int die(int led, int die) {
      return bytes.get(3 * led + die);
    }

    List<Integer> led(int led) {
      return bytes.subList(3 * led, 3 * led + 3);
    }
  }

  @Test
  void an_evening_at_the_terminus_is_lit_as_its_layout_says(@TempDir Path folder) throws Exception {
    List<String> command = command("gcc", "terminus", folder);
    Path board = Toolchain.resource("quay_board.c", folder);
    Path program = folder.resolve("evening");
    command.addAll(List.of("examples/terminus/terminus.c", board.toString()));
    command.addAll(List.of("-o", program.toString()));
    assertThat(Toolchain.output(command)).isEmpty();
    List<Frame> frames =
        Toolchain.output(List.of(program.toString()))
            .lines()
            .map(FirmwareExampleTest::frame)
            .toList();
    List<Frame> line = frames.stream().filter(f -> f.chain() == 0).toList();
    List<Frame> town = frames.stream().filter(f -> f.chain() == 1).toList();

    // H1, the first LED of the line, is dark but for the train and five seconds more; H2 never is.
    assertThat(at(line, 3990).led(0)).containsOnly(0);
    assertThat(at(line, 4600).led(0)).containsExactly(0, 204, 0);
    assertThat(at(line, 11900).led(0)).contains(64).containsOnly(0, 64);
    assertThat(at(line, 12900).led(0)).containsOnly(0);
    assertThat(at(line, 3990).led(1)).containsExactly(204, 0, 0);

    // It glows up, and from green to yellow its vane passes red for a third of 300 ms.
    assertThat(at(line, 4150).die(0, GREEN)).isBetween(20, 180);
    assertThat(at(line, 6050).led(0)).containsExactly(0, 204, 0);
    assertThat(at(line, 6150).led(0)).containsExactly(204, 0, 0);
    assertThat(at(line, 6350).led(0)).containsExactly(0, 0, 204);

    // By night a quarter and two fifths of full drive.
    assertThat(at(line, 9490).die(1, RED)).isEqualTo(204);
    assertThat(at(line, 9600).die(1, RED)).isEqualTo(64);
    assertThat(largest(town, 2000, 9400)).isBetween(190, 204);
    assertThat(largest(town, 9600, 13000)).isBetween(95, 102);

    // The two yellow lamps of Q1, its first and third LED, take turns at 50 a minute.
    for (int flash = 0; flash < 6; flash++) {
      Frame early = at(town, 1200 + 1200 * flash + 590);
      Frame late = at(town, 1200 + 1200 * flash + 1190);
      assertThat(early.die(0, YELLOW)).isGreaterThan(190);
      assertThat(early.die(2, YELLOW)).isLessThan(10);
      assertThat(late.die(0, YELLOW)).isLessThan(10);
      assertThat(late.die(2, YELLOW)).isGreaterThan(190);
    }
  }

  private static Frame at(List<Frame> frames, int time) {
    return frames.stream().filter(f -> f.time() >= time).findFirst().orElseThrow();
  }

  private static int largest(List<Frame> frames, int from, int to) {
    return frames.stream()
        .filter(f -> f.time() >= from && f.time() < to)
        .flatMapToInt(f -> f.bytes().stream().mapToInt(b -> b))
        .max()
        .orElseThrow();
  }

  private static Frame frame(String line) {
    List<Integer> numbers = Arrays.stream(line.split(" ")).map(Integer::valueOf).toList();
    return new Frame(numbers.get(0), numbers.get(1), numbers.subList(2, numbers.size()));
  }

  /** A compiler with every warning on, and the tables of a layout built for it. */
  private static List<String> command(String compiler, String layout, Path folder) {
    Toolchain.assumeInstalled(compiler);
    Path tables = folder.toAbsolutePath().resolve("out");
    Toolchain.build("examples/" + layout + "/layout.yaml", tables);
    List<String> command = new ArrayList<>(List.of(compiler, "-Os"));
    command.addAll(Toolchain.STRICT);
    command.addAll(List.of("-I" + tables, "-Iexamples/firmware"));
    return command;
  }
}
