package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The firmware for the ATmega328P runs whole in a simulator that is true to the cycle, edges of DCC
 * in and waveforms out. What each signal should show is said by the reader on this machine, which
 * {@code ReaderInCTest} holds against the decoder in Java.
 */
@Tag("slow")
class FirmwareOnChipTest {
  private static final Path SIMAVR = Path.of("/usr/include/simavr/sim_avr.h");
  private static final double CYCLE = 0.0625; // microseconds at 16 MHz

  private static final List<String> FADES = List.of("-DDOUBLET_FADES");
  private static final String SERVOS = "-DDOUBLET_SERVOS";
  private static final String EVERYTHING = "-DEVERYTHING"; // no line of table.h leaves anything out
  private static final int RISEN = 512; // milliseconds, as the reader has it

  @TempDir private Path folder;

  @BeforeEach
  void assumeTools() {
    Toolchain.assumeInstalled("gcc");
    Toolchain.assumeInstalled("avr-gcc");
    assumeTrue(Files.exists(SIMAVR), "libsimavr's headers are not installed");
  }

  /**
   * Commands as fast as a track carries them, every one for this controller, and a fifth of that.
   * The aims are ours: of 1,000 commands 995 applied, none wrongly, and LEDs refreshed within 25
   * ms. With 646 LEDs, no two signals alike in a row, it takes a little longer.
   */
  @ParameterizedTest
  @CsvSource({
    "cycling60, 1000, 1",
    "cycling200, 1000, 1",
    "scatter200, 500, 1",
    "cycling60, 200, 5",
    "cycling200, 200, 5",
    "scatter200, 200, 5"
  })
  void commands_of_a_busy_track_are_applied(String layout, int commands, int each)
      throws IOException {
    compile(layout);
    Map<String, Long> figures = figures(drive("traffic", commands + "", each + ""));
    assertThat(figures).containsEntry("commands", (long) commands);
    assertThat(figures.get("applied")).isGreaterThanOrEqualTo((long) Math.ceil(0.995 * commands));
    assertThat(figures.get("applied") + figures.get("lost")).isEqualTo(commands);
    assertThat(figures).containsEntry("wrong", 0L);
    assertThat(figures.get("not-as-at-last")).isLessThanOrEqualTo(figures.get("lost"));
    if (each == 1) {
      assertThat(figures.get("interval-most-us")).isLessThanOrEqualTo(25_000);
    }
    // A command may come when its chain has just been worked out, so it waits for two refreshes.
    assertThat(figures.get("shown-most-us")).isLessThanOrEqualTo(2 * 25_000);
    assertThat(figures.get("room")).isGreaterThan(64);
    waveform(figures);
  }

  /** Whatever a table may hold is read, at a tenth more work for each LED. */
  @Test
  void a_program_that_leaves_nothing_out_keeps_to_25_ms_when_it_is_made_for_speed()
      throws IOException {
    compile("scatter200", List.of("-O3", EVERYTHING));
    Map<String, Long> figures = figures(drive("traffic", "200", "1"));
    assertThat(figures).containsEntry("applied", 200L);
    assertThat(figures).containsEntry("wrong", 0L);
    assertThat(figures.get("interval-most-us")).isLessThanOrEqualTo(25_000);
    assertThat(figures.get("room")).isGreaterThan(64);
    waveform(figures);
  }

  /**
   * Where lamps fade, what rests is held against the reader, and gaps and rests of the line are as
   * ever. A fade takes half a second at most (the reader's choice); so a signal gets no other
   * command meanwhile.
   */
  @Test
  void commands_are_applied_where_lamps_fade() throws IOException {
    compile("cycling60", FADES);
    Map<String, Long> figures = figures(drive("traffic", "100", "5"));
    assertThat(figures).containsEntry("commands", 100L);
    assertThat(figures).containsEntry("applied", 100L);
    assertThat(figures).containsEntry("wrong", 0L);
    assertThat(figures.get("interval-most-us")).isLessThanOrEqualTo(25_000);
    assertThat(figures.get("shown-most-us")).isBetween(200_000L, 1_000L * RISEN + 50_000);
    assertThat(figures.get("room")).isGreaterThan(64);
    waveform(figures);
  }

  /**
   * Pulses of five servos, as long as the layout says within 4 microseconds, of 1,000 for a quarter
   * of a turn (common practice, as the 20 ms from one to the next), though they end within 4
   * microseconds of one another; and commands and LEDs as ever, as fast as a track carries packets.
   */
  @Test
  void servos_have_their_pulses_on_a_busy_track() throws IOException {
    compile("arms", List.of(SERVOS));
    Map<String, Long> figures = figures(drive("traffic", "300", "1"));
    assertThat(figures).containsEntry("commands", 300L);
    assertThat(figures).containsEntry("applied", 300L);
    assertThat(figures).containsEntry("wrong", 0L);
    assertThat(figures.get("interval-most-us")).isLessThanOrEqualTo(25_000);
    assertThat(figures.get("room")).isGreaterThan(64);
    waveform(figures);
    pulses(figures);
    assertThat(figures.get("pulses-judged")).isGreaterThan(100);
  }

  /** With the stack, where nothing is left out: what was counted, 156 bytes and 196 of stack. */
  @Test
  void memory_that_servos_take_is_counted() throws IOException {
    compile("arms", List.of(SERVOS, EVERYTHING), "board: avr-16mhz");
    Matcher counted =
        Pattern.compile("#define C_RAM (\\d+)")
            .matcher(Files.readString(folder.resolve("out/c.h")));
    assertThat(counted.find()).isTrue();
    long room = figures(drive("traffic", "50", "1")).get("room");
    assertThat(2048 - room - Integer.parseInt(counted.group(1))).isLessThanOrEqualTo(156 + 196);
  }

  /** An arm takes as long as its {@code travel}, the default a second, and a step of it more. */
  @ParameterizedTest
  @CsvSource({"1, 3, 0 1640 1 1300, 1500", "2, 3, 2 2000 3 1999, 1000", "3, 2, 4 1996, 300"})
  void arms_travel_as_long_as_the_layout_says(
      String address, String value, String arrived, int travel) throws IOException {
    compile("arms", List.of(SERVOS));
    String printed = drive("arms", address, "0", value);
    Matcher arms =
        Pattern.compile("channel (.) near (\\d+) us after (\\d+) ms")
            .matcher(printed.substring(printed.lastIndexOf("taken")));
    int longest = 0;
    for (String[] left = arrived.split(" "); left.length > 0; ) {
      assertThat(arms.find()).as(printed).isTrue();
      assertThat(arms.group(1)).isEqualTo(left[0]);
      assertThat(Integer.parseInt(arms.group(2))).isCloseTo(Integer.parseInt(left[1]), within(4));
      longest = Math.max(longest, Integer.parseInt(arms.group(3)));
      left = Arrays.copyOfRange(left, 2, left.length);
    }
    assertThat(arms.find()).as(printed).isFalse();
    assertThat(longest).isBetween(travel - 100, travel + 40);
    Map<String, Long> figures = new HashMap<>();
    printed
        .lines()
        .filter(line -> line.matches("[a-z-]+ \\d+"))
        .forEach(line -> figures.put(line.split(" ")[0], Long.valueOf(line.split(" ")[1])));
    assertThat(figures).containsEntry("wrong", 0L);
    pulses(figures);
  }

  private static void pulses(Map<String, Long> figures) {
    assertThat(figures.get("pulse-short-most") * CYCLE).isLessThanOrEqualTo(4);
    assertThat(figures.get("pulse-long-most") * CYCLE).isLessThanOrEqualTo(4);
    assertThat(figures.get("period-least-us")).isGreaterThanOrEqualTo(15_000);
    assertThat(figures.get("period-most-us")).isLessThanOrEqualTo(22_000);
  }

  /**
   * What check counts for a board without a {@code ram} of its own is what the firmware takes,
   * within a byte or two: the board has 2,048 bytes (avr-libc's iom328p.h), and leaves 1,696.
   */
  @ParameterizedTest
  @CsvSource({"cycling60, false", "cycling60, true", "scatter200, false"})
  void memory_that_is_counted_is_what_the_program_takes(String layout, boolean fades)
      throws IOException {
    compile(layout, fades ? FADES : List.of(), "board: avr-16mhz");
    Matcher counted =
        Pattern.compile("#define C_RAM (\\d+)")
            .matcher(Files.readString(folder.resolve("out/c.h")));
    assertThat(counted.find()).isTrue();
    String[] sizes =
        Toolchain.output(List.of("avr-size", file("firmware")))
            .lines()
            .toList()
            .get(1)
            .trim()
            .split("\\s+");
    int taken = Integer.parseInt(sizes[1]) + Integer.parseInt(sizes[2]);
    assertThat(taken - Integer.parseInt(counted.group(1))).isBetween(150, 156);
  }

  @Test
  void two_hundred_signals_that_fade_are_refused_for_the_board() throws IOException {
    Session session = layout("cycling200", FADES, "board: avr-16mhz");
    assertThat(session.run("check", "layout.yaml")).isEqualTo(1);
    assertThat(session.out())
        .contains(
            "controller c needs 1782 bytes of ram and has 1696",
            "68 for the reader, 1000 for 200 signals, 714 for the LEDs");
  }

  /**
   * Times of bits on the wire, in microseconds, as data sheets print them: WS2812B (undated copy),
   * WS2812B-V5 (2019), SK6812RGBW (2015) and WS2813. A zero is high for 0.25 to 0.55, 0.22 to 0.38,
   * 0.15 to 0.45 and 0.30 to 0.45, and then low for 0.70 to 1.0, 0.58 to 1.0, 0.75 to 1.05 and from
   * 0.30; a one is high for 0.65 to 0.95, 0.58 to 1.0, 0.45 to 0.75 and 0.75 to 1.0, and then low
   * for 0.30 to 0.60, 0.58 to 1.0, 0.45 to 0.75 and from 0.30. Their common part is held, but for
   * the low after a one: no number of cycles lies within it, and ours is 0.025 over the first
   * sheet's.
   */
  private static void waveform(Map<String, Long> figures) {
    always(figures, "zero-high", 0.30, 0.38);
    always(figures, "one-high", 0.75, 0.75);
    always(figures, "zero-low", 0.75, 1.00);
    always(figures, "one-low", 0.58, 0.60 + 0.025);
    // Lines rest for 300 us before each frame: the longest that a sheet asks for.
    assertThat(figures).containsEntry("unrested", 0L);
    // An older part is said to take 6 us for the end of a frame (measured by others, in no sheet).
    assertThat(figures.get("gap-most") * CYCLE).isLessThanOrEqualTo(5.0);
  }

  private static void always(Map<String, Long> figures, String name, double least, double most) {
    assertThat(figures.get(name + "-least") * CYCLE).isGreaterThanOrEqualTo(least);
    assertThat(figures.get(name + "-most") * CYCLE).isLessThanOrEqualTo(most);
  }

  @Test
  void states_outlast_power_signals_are_tried_by_hand_and_lamps_tested() throws IOException {
    compile("cycling60");
    List<String> lines = new ArrayList<>(drive("power").lines().toList());
    // The longest way through the interrupt: the time between two edges has no room in a byte.
    String gap = lines.remove(3);
    assertThat(gap).startsWith("gap-most ");
    assertThat(Integer.parseInt(gap.substring(9)) * CYCLE).isLessThanOrEqualTo(5.0);
    assertThat(lines)
        .containsExactly(
            "at rest: nothing was kept yet",
            "new: frames sent, wrong 0, waiting 0",
            "thirty commands: frames sent, wrong 0, waiting 0",
            "stretched zeros: frames sent, wrong 0, waiting 0",
            "as before power was lost",
            "power back: frames sent, wrong 0, waiting 0",
            "taken",
            "typed: frames sent, wrong 0, waiting 0",
            "address 1 to 2048, value 0 to 255",
            "give an address and a value",
            "no signal listens there to that",
            "typed while busy: frames sent, wrong 0, waiting 0",
            "lamp test: frames sent, wrong 0, waiting 0",
            "lamp test: frames sent, wrong 0, waiting 0",
            "lamp test: frames sent, wrong 0, waiting 0",
            "button let go: frames sent, wrong 0, waiting 0",
            "at rest: what was kept is not whole, or another table's",
            "memory damaged: frames sent, wrong 0, waiting 0");
  }

  /**
   * A bootloader writes pages of 128 bytes (SPM_PAGESIZE of avr-libc's iom328p.h), and may be cut
   * off after any or within one.
   */
  @Test
  void a_table_of_the_bootloader_is_shown_when_it_is_whole_and_else_signals_rest()
      throws IOException {
    compile("cycling60");
    String layout = Files.readString(folder.resolve("layout.yaml"));
    assertThat(layout).contains("  c:\n", "brightness: 60");
    Files.writeString(
        folder.resolve("layout.yaml"),
        layout
            .replace("  c:\n", "  c:\n    board: avr-16mhz\n")
            .replace("brightness: 60", "brightness: 30"));
    assertThat(new Session(folder).run("build", "layout.yaml", "--output", "later")).isZero();
    List<String> lines = drive("later", file("later/c.hex")).lines().toList();
    long bytes = Files.size(folder.resolve("later/c.bin"));
    int pages = (int) ((bytes + 127) / 128);
    assertThat(pages).isGreaterThan(2);

    List<String> expected = new ArrayList<>(List.of(bytes + " bytes at 16384"));
    String whole = "whole pages: frames sent, wrong 0, waiting 0";
    String half = "and half a page: frames sent, wrong 0, waiting 0";
    expected.addAll(List.of("at rest: nothing was kept yet", whole));
    expected.add(
        "the table written later is longer than its room: at rest, with the program's own");
    expected.add(half);
    for (int page = 1; page < pages; page++) {
      String said = "the table written later is not whole: at rest, with the program's own";
      expected.addAll(List.of(said, whole, said, half));
    }
    String said = "the table written later: at rest: nothing was kept yet";
    expected.addAll(List.of(said, whole, said, half));
    assertThat(lines).isEqualTo(expected);
  }

  @Test
  void a_table_of_the_bootloader_that_wants_more_memory_is_not_shown() throws IOException {
    compile("cycling60");
    String layout =
        Files.readString(Path.of("src/test/chip/layouts/cycling200-layout.yaml"))
            .replace("  c:\n", "  c:\n    board: avr-16mhz\n");
    Files.writeString(folder.resolve("layout.yaml"), layout);
    assertThat(new Session(folder).run("build", "layout.yaml", "--output", "later")).isZero();
    assertThat(drive("later", file("later/c.hex")).lines())
        .endsWith(
            "the table written later wants more memory: at rest, with the program's own",
            "and half a page: frames sent, wrong 0, waiting 0");
  }

  @Test
  void a_table_that_needs_what_is_left_out_is_refused_for_that_reason() throws IOException {
    compile("cycling60");
    Path layout = folder.resolve("layout.yaml");
    Files.writeString(
        layout,
        Files.readString(layout)
            .replace("  c:\n", "  c:\n    board: avr-16mhz\n")
            .replace("{name: S1,", "{name: S1, brightness: 50,"));
    assertThat(new Session(folder).run("build", "layout.yaml", "--output", "later")).isZero();
    assertThat(drive("later", file("later/c.hex")).lines())
        .contains(
            "the table written later needs what table.h leaves out:"
                + " at rest, with the program's own");
  }

  private static Map<String, Long> figures(String printed) {
    Map<String, Long> figures = new HashMap<>();
    for (String line : printed.lines().toList()) {
      Matcher matcher = Pattern.compile("([a-z-]+) ([0-9]+)").matcher(line);
      if (matcher.matches()) {
        figures.put(matcher.group(1), Long.valueOf(matcher.group(2)));
      }
    }
    assertThat(figures).as(printed).containsKeys("applied", "room");
    return figures;
  }

  private String drive(String... arguments) throws IOException {
    List<String> command = new ArrayList<>(List.of(file("drive"), arguments[0], file("firmware")));
    command.addAll(List.of(arguments).subList(1, arguments.length));
    return Toolchain.output(command);
  }

  private void compile(String layout) throws IOException {
    compile(layout, List.of(), "flash: 28672\n    ram: 4096");
  }

  private void compile(String layout, List<String> options) throws IOException {
    compile(layout, options, "flash: 28672\n    ram: 4096");
  }

  /** One of the benches' layouts with memory as it is given, and lamps that fade or do not. */
  private Session layout(String layout, List<String> options, String memory) throws IOException {
    Path rulebooks = Toolchain.ROOT.resolve("rulebooks");
    Path layouts = Path.of("src/test/chip/layouts");
    Files.copy(rulebooks.resolve("brackwater.aspects"), folder.resolve("brackwater.aspects"));
    Files.copy(
        Toolchain.ROOT.resolve("examples/sluice/sluice.aspects"), folder.resolve("sluice.aspects"));
    String heads =
        !options.equals(FADES)
            ? Files.readString(rulebooks.resolve("brackwater-heads.aspects"))
            : Files.readString(layouts.resolve("glow-heads.aspects")).replace(" and vane red", "");
    Files.writeString(folder.resolve("brackwater-heads.aspects"), heads);
    String yaml = Files.readString(layouts.resolve(layout + "-layout.yaml"));
    Matcher given = Pattern.compile("flash: \\d+\\n    ram: \\d+").matcher(yaml);
    assertThat(given.find()).isTrue();
    Files.writeString(folder.resolve("layout.yaml"), given.replaceFirst(memory));
    return new Session(folder);
  }

  /** The firmware and what drives it, both with the table of one of the benches' layouts. */
  private void compile(String layout, List<String> options, String memory) throws IOException {
    Session session = layout(layout, options, memory);
    assertThat(session.run("build", "layout.yaml", "--output", "out")).as(session.out()).isZero();

    // The longest chain's name goes into table.h as a builder would put it there.
    Matcher chains =
        Pattern.compile("#define C_BYTES_OF_CHAIN_(\\S+) (\\d+)")
            .matcher(Files.readString(folder.resolve("out/c.h")));
    String longest = "";
    int bytes = 0;
    while (chains.find()) {
      if (Integer.parseInt(chains.group(2)) > bytes) {
        bytes = Integer.parseInt(chains.group(2));
        longest = chains.group(1);
      }
    }
    String table =
        Files.readString(Toolchain.ROOT.resolve("examples/firmware/table.h"))
            .replace("yard", "c")
            .replace("YARD_BUS_DCC", "C_BUS_TRACK")
            .replace("YARD_BYTES_OF_CHAIN_MAIN", "C_BYTES_OF_CHAIN_" + longest)
            .replace("YARD", "C");
    if (options.contains(EVERYTHING)) {
      table = table.replaceAll("#define DOUBLET_NO_(NUMERALS|LEVELS|CHIPS).*\n", "");
    }
    Files.writeString(folder.resolve("table-c.h"), table);

    List<String> drive =
        new ArrayList<>(List.of("gcc", "-std=gnu99", "-O2", "-Wall", "-Wextra", "-Werror"));
    drive.addAll(List.of("-DDOUBLET_NO_TOPICS", "-DDOUBLET_NO_EVENTS", "-DLONGEST=" + bytes));
    drive.add("-DRISEN_MS=" + (options.equals(FADES) ? RISEN : 0));
    if (options.contains(SERVOS)) {
      drive.add(SERVOS);
    }
    drive.add("-I" + folder.toAbsolutePath().resolve("out"));
    drive.addAll(List.of("-I" + SIMAVR.getParent(), "compiler/src/test/chip/firmware/drive.c"));
    drive.addAll(List.of("-lsimavr", "-o", file("drive")));
    assertThat(Toolchain.output(drive)).isEmpty();

    List<String> command = new ArrayList<>(List.of("avr-gcc", "-O2", "-flto", "-mmcu=atmega328p"));
    command.addAll(Toolchain.STRICT);
    command.addAll(options);
    command.addAll(List.of("-DTABLE_HEADER=\"table-c.h\"", "-I" + folder.toAbsolutePath()));
    command.add("-I" + folder.toAbsolutePath().resolve("out"));
    Stream.of("signals", "dcc", "store", "line", "atmega328p")
        .forEach(part -> command.add("examples/firmware/" + part + ".c"));
    command.addAll(List.of("-o", file("firmware")));
    assertThat(Toolchain.output(command)).isEmpty();
  }

  private String file(String name) {
    return folder.toAbsolutePath().resolve(name).toString();
  }
}
