package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The parts of the firmware that know no chip, run on this machine with every check of gcc. */
@Tag("slow")
class FirmwarePartsTest {
  private static final int ONE = 58;
  private static final int ZERO = 100;

  @TempDir private static Path folder;
  private static String program;

  @BeforeAll
  static void compile() throws IOException {
    Toolchain.assumeInstalled("gcc");
    program = folder.toAbsolutePath().resolve("parts").toString();
    List<String> command = new ArrayList<>(List.of("gcc", "-O1", "-Iexamples/firmware"));
    command.addAll(Toolchain.STRICT);
    command.addAll(List.of("-fsanitize=address,undefined", "-fno-sanitize-recover=all"));
    command.add(Toolchain.resource("firmware_host.c", folder.toAbsolutePath()).toString());
    for (String part : List.of("dcc", "line", "store")) {
      command.add("examples/firmware/" + part + ".c");
    }
    command.addAll(List.of("-o", program));
    assertThat(Toolchain.output(command)).isEmpty();
  }

  // ---- DCC. Halves, limits and the form of packets: NMRA S-9.1 (2020) and S-9.2 (2004); three to
  // six bytes: S-9.2.1 (2012). The lists were computed by hand from these.

  @Test
  void packets_are_heard_at_the_last_edge_of_their_end_bit() throws IOException {
    heard(
        List.of(
            run("28x58 2x100 2x58 12x100 2x58 2x100 10x58 10x100 8x58 4x100 4x58"),
            run(
                "28x58 2x100 2x58 12x100 2x58 4x100 6x58 6x100 2x58 12x100 2x58 2x100 2x58 2x100"
                    + " 8x58 2x100 2x58 2x100 4x58"),
            run("28x58 2x100 2x58 2x100 12x58 12x100 6x58 20x100 2x58 2x100 6x58 6x100 2x58"),
            run("28x58 2x100 16x58 20x100 18x58"),
            run("28x58 2x100 2x58 12x100 2x58 4x100 6x58 6x100 2x58 20x100 8x58 8x100 2x58")),
        List.of(
            "81 F8 79 @84",
            "81 71 05 F5 @102",
            "BF 07 00 B8 @102",
            "FF 00 FF @84",
            "81 71 00 F0 @102"));
  }

  @Test
  void a_stretched_start_bit_is_one_and_listening_may_begin_anywhere_in_a_preamble()
      throws IOException {
    List<Integer> basic = packet(14, 0x81, 0xF8, 0x79);
    List<Integer> stretched = new ArrayList<>(basic);
    stretched.set(29, 9900);
    heard(
        List.of(
            stretched,
            basic.subList(1, basic.size()),
            basic.subList(8, basic.size()),
            basic.subList(9, basic.size()),
            basic.subList(10, basic.size())),
        List.of("81 F8 79 @84", "81 F8 79 @83", "81 F8 79 @76", "", ""));
  }

  @Test
  void fewer_than_ten_ones_are_no_preamble_and_ten_do() throws IOException {
    List<List<Integer>> told = new ArrayList<>();
    List<String> expected = new ArrayList<>();
    for (int ones = 0; ones < 300; ones++) {
      told.add(packet(ones, 0x81, 0xF8, 0x79));
      expected.add(ones < 10 ? "" : "81 F8 79 @" + (2 * ones + 56));
    }
    heard(told, expected);
  }

  @Test
  void all_times_that_a_receiver_must_accept_are_accepted() throws IOException {
    List<List<Integer>> told = new ArrayList<>();
    for (int one : new int[] {52, 58, 64}) {
      for (int[] zero :
          new int[][] {{90, 90}, {100, 100}, {90, 10000}, {10000, 90}, {10000, 10000}}) {
        List<Integer> halves = packet(14, 0x81, 0x71, 0x05, 0xF5);
        boolean second = false;
        for (int i = 0; i < halves.size(); i++, second = !second) {
          int odd = second ? 1 : 0;
          int skew = one == 58 ? 6 * odd - 3 : 0;
          halves.set(i, halves.get(i) == ONE ? one + skew : zero[odd]);
        }
        told.add(halves);
      }
    }
    heard(told, Collections.nCopies(told.size(), "81 71 05 F5 @102"));
  }

  @Test
  void what_the_standard_leaves_open_is_a_one_below_77_and_beyond_its_limits_no_bit()
      throws IOException {
    List<List<Integer>> told = new ArrayList<>();
    List<String> expected = new ArrayList<>();
    for (int half = 30; half < 90; half++) {
      List<Integer> halves = packet(14, 0x81, 0xF8, 0x79);
      halves.set(30, half);
      halves.set(31, half);
      told.add(halves);
      expected.add(half >= 39 && half < 77 ? "81 F8 79 @84" : "");
    }
    for (int half : new int[] {0, 10001, 65535}) {
      List<Integer> halves = packet(14, 0x81, 0xF8, 0x79);
      halves.set(29, half);
      told.add(halves);
      expected.add("");
    }
    heard(told, expected);
  }

  @Test
  void three_to_six_bytes_are_a_packet_and_a_seventh_drops_it() throws IOException {
    List<List<Integer>> told = new ArrayList<>();
    List<String> expected = new ArrayList<>();
    for (int bytes = 1; bytes <= 9; bytes++) {
      int[] packet = IntStream.concat(IntStream.range(1, bytes), IntStream.of(0)).toArray();
      packet[bytes - 1] = Arrays.stream(packet).reduce(0, (a, b) -> a ^ b);
      List<Integer> halves = packet(14, packet);
      int told1 = halves.size();
      halves.addAll(packet(14, 0x81, 0xF8, 0x79));
      told.add(halves);
      String first = hex(packet) + " @" + told1 + " ";
      expected.add((bytes >= 3 && bytes <= 6 ? first : "") + "81 F8 79 @" + (told1 + 84));
    }
    heard(told, expected);
  }

  /**
   * Computed from the limits of S-9.1: nominal halves, and a sender's least of 55 and 95 us with 13
   * ones behind the end bit before, so 185 of the shortest come in a second.
   */
  @ParameterizedTest
  @CsvSource({
    "80 FF 7F, 5796, 5390",
    "FF 00 FF, 5796, 5390",
    "80 80 00, 6972, 6510",
    "B7 37 7F FF, 6756, 6300",
    "80 01 00 81, 8604, 8060",
    "81 F8 79, 6132, 5710",
    "81 71 00 F0, 8100, 7580"
  })
  void packets_last_as_long_as_their_bits_and_are_heard_at_that_pace(
      String bytes, int nominal, int least) throws IOException {
    int[] packet = Arrays.stream(bytes.split(" ")).mapToInt(b -> Integer.parseInt(b, 16)).toArray();
    assertThat(packet(14, packet).stream().mapToInt(Integer::intValue).sum()).isEqualTo(nominal);
    List<Integer> again = packet(13, packet).stream().map(h -> h == ONE ? 55 : 95).toList();
    assertThat(again.stream().mapToInt(Integer::intValue).sum()).isEqualTo(least);
    List<Integer> thrice = new ArrayList<>(List.of(55, 55));
    IntStream.range(0, 3).forEach(i -> thrice.addAll(again));
    assertThat(tell(List.of(thrice))).containsExactly(String.join(" ", bytes, bytes, bytes));
  }

  @Test
  void an_end_bit_may_begin_the_next_preamble() throws IOException {
    List<Integer> halves = packet(14, 0x81, 0xF8, 0x79);
    halves.addAll(packet(9, 0xFF, 0x00, 0xFF));
    halves.addAll(packet(9, 0x81, 0x71, 0x05, 0xF5));
    heard(List.of(halves), List.of("81 F8 79 @84 FF 00 FF @158 81 71 05 F5 @250"));
  }

  @Test
  void a_packet_with_any_one_bit_wrong_is_dropped_and_the_next_is_heard() throws IOException {
    List<List<Integer>> told = new ArrayList<>();
    List<String> expected = new ArrayList<>();
    for (int bit = 14; bit < 42; bit++) {
      List<Integer> halves = packet(14, 0x81, 0xF8, 0x79);
      int other = halves.get(2 * bit) == ONE ? ZERO : ONE;
      halves.set(2 * bit, other);
      halves.set(2 * bit + 1, other);
      halves.addAll(packet(14, 0xFF, 0x00, 0xFF));
      told.add(halves);
      expected.add("FF 00 FF @168");
    }
    heard(told, expected);
  }

  @Test
  void an_edge_too_many_or_too_few_costs_no_more_than_its_packet() throws IOException {
    List<List<Integer>> told = new ArrayList<>();
    for (int at = 28; at < 83; at++) {
      List<Integer> missing = packet(14, 0x81, 0xF8, 0x79);
      missing.set(at, missing.get(at) + missing.remove(at + 1));
      List<Integer> extra = packet(14, 0x81, 0xF8, 0x79);
      extra.set(at, extra.get(at) - 5);
      extra.add(at, 5);
      for (List<Integer> halves : List.of(missing, extra)) {
        halves.addAll(packet(14, 0xFF, 0x00, 0xFF));
        told.add(halves);
      }
    }
    for (String line : tell(told)) {
      assertThat(line).endsWith("FF 00 FF").doesNotContain("81 F8 79 FF 00 FF FF");
      assertThat(line.split(" ").length).isLessThanOrEqualTo(6);
    }
  }

  @Test
  void a_thousand_packets_whose_edges_come_early_and_late_are_heard() throws IOException {
    Random random = new Random(7);
    List<List<Integer>> told = new ArrayList<>();
    List<String> expected = new ArrayList<>();
    for (int i = 0; i < 1000; i++) {
      int[] packet = random.ints(3 + random.nextInt(4), 0, 256).toArray();
      packet[packet.length - 1] ^= Arrays.stream(packet).reduce(0, (a, b) -> a ^ b);
      List<Integer> halves = packet(14 + random.nextInt(5), packet);
      for (int at = 0; at < halves.size(); at++) {
        // A receiver's limits, and 12 us of the interrupt's own error.
        int least = halves.get(at) == ONE ? 52 : 90;
        int most = halves.get(at) == ONE ? 64 : 300;
        halves.set(at, least + random.nextInt(most - least + 1) + random.nextInt(25) - 12);
      }
      told.add(halves);
      expected.add(hex(packet));
    }
    assertThat(tell(told)).isEqualTo(expected);
  }

  @Test
  void noise_harms_nothing_and_is_seldom_a_packet() throws IOException {
    Random random = new Random(8);
    List<List<Integer>> told = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      int longest = i % 2 == 0 ? 200 : 65535;
      told.add(
          random.ints(5000, 0, longest).boxed().collect(Collectors.toCollection(ArrayList::new)));
    }
    assertThat(tell(told)).allMatch(line -> line.length() < 40);
  }

  // ---- What is typed, and what is kept

  @Test
  void a_typed_line_is_an_address_and_a_value_or_wrong() throws IOException {
    String typed = "17 3\r\n5\n1 2 3\n\nx 1\n  12   255 \n10000 1\n9999 0\n1 -1\n" + "9".repeat(99);
    assertThat(Toolchain.output(List.of(program, "lines"), typed + "\n").lines())
        .containsExactly(
            "17 3", "wrong", "wrong", "wrong", "12 255", "wrong", "9999 0", "wrong", "wrong");
  }

  @Test
  void power_may_go_at_any_byte_and_whole_states_are_found() throws IOException {
    // 2 to 5 slots, 3 rounds of them, a cut before each of 26 bytes and after the last, and in a
    // cut byte each of 256 values.
    int cuts = (2 + 3 + 4 + 5) * 3 * 27 * 256;
    assertThat(Toolchain.output(List.of(program, "cuts"))).isEqualTo(cuts + "\n");
  }

  @Test
  void keeping_wears_all_of_the_memory_alike() throws IOException {
    // 1,024 bytes are 39 slots of 26, so a thousand writings come to 25 or 26 each.
    assertThat(Toolchain.output(List.of(program, "wear"))).isEqualTo("26 25 1\n");
  }

  /**
   * A cell of the ATmega328P's EEPROM bears 100,000 writings (its sheet, DS40001984A); 1 KB of
   * them, written once a minute and 8 hours a day, last as long as the page says.
   */
  @ParameterizedTest
  @CsvSource({"200, 4, '830 days'", "12, 39, '22 years'"})
  void the_memory_lasts_as_long_as_the_page_says(int signals, int slots, String said)
      throws IOException {
    // A byte a signal, what the reader saves beside, and what the store adds.
    int slot = signals + 8 + 6;
    assertThat(1024 / slot).isEqualTo(slots);
    long days = 100_000L * slots / (8 * 60);
    String time = said.endsWith("days") ? days / 10 * 10 + " days" : days / 365 + " years";
    assertThat(time).isEqualTo(said);
    assertThat(Files.readString(Toolchain.ROOT.resolve("examples/firmware/README.md")))
        .contains(said, " " + slots + "");
  }

  /** What is heard, without where. */
  private static List<String> tell(List<List<Integer>> told) throws IOException {
    return output(told).stream().map(l -> l.replaceAll(" ?@[0-9]+", "")).toList();
  }

  private static void heard(List<List<Integer>> told, List<String> expected) throws IOException {
    assertThat(output(told)).isEqualTo(expected);
  }

  private static List<String> output(List<List<Integer>> told) throws IOException {
    String typed =
        told.stream()
            .map(h -> h.stream().map(String::valueOf).collect(Collectors.joining(" ")))
            .collect(Collectors.joining("\n", "", "\n"));
    return Toolchain.output(List.of(program, "halves"), typed).lines().map(String::strip).toList();
  }

  /** Runs of like halves, each "how many x microseconds". */
  private static List<Integer> run(String runs) {
    List<Integer> halves = new ArrayList<>();
    for (String run : runs.split(" ")) {
      String[] parts = run.split("x");
      halves.addAll(Collections.nCopies(Integer.parseInt(parts[0]), Integer.valueOf(parts[1])));
    }
    return halves;
  }

  private static List<Integer> packet(int ones, int... bytes) {
    List<Integer> halves = new ArrayList<>(Collections.nCopies(2 * ones, ONE));
    for (int b : bytes) {
      halves.addAll(List.of(ZERO, ZERO));
      for (int bit = 7; bit >= 0; bit--) {
        int half = (b >> bit & 1) == 1 ? ONE : ZERO;
        halves.addAll(List.of(half, half));
      }
    }
    halves.addAll(List.of(ONE, ONE));
    return halves;
  }

  private static String hex(int[] bytes) {
    return Arrays.stream(bytes)
        .mapToObj(b -> String.format("%02X", b))
        .collect(Collectors.joining(" "));
  }
}
