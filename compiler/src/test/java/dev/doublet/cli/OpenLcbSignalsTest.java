package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The firmware with OpenLCB, frame by frame. What each frame is comes from the standards of 22 July
 * 2024: CAN Frame Transfer (CFS), Message Network (MNS), Event Transport (ETS) and Event
 * Identifiers. Lines marked printed stand in one of them or its technical note; the others were
 * computed from their tables for the node 02.01.0D.00.00.01.
 */
@Tag("slow")
class OpenLcbSignalsTest {
  private static final String ID = "02010D000001";
  private static final String CHECKS = "1702012C;1610D12C;1500012C;1400112C;";
  private static final String READY = "1070012C;1070112C " + ID + ";1910112C " + ID + ";";
  private static final String STOP = "0101020001000400";
  private static final String APPROACH = "0101020001000405";
  private static final String CLEAR = "0101020001000407";
  private static final String UNKNOWN = events("7", "7", "7", "7", "7", "7");

  @TempDir static Path folder;
  private static Path program;

  /** A step and what is sent after it. */
  private record Step(String done, String sent) {}

  @BeforeAll
  static void compile() throws Exception {
    Session session = Yard.in(folder);
    Files.writeString(
        folder.resolve("layout.yaml"),
        """
        layout: Coalpit Yard
        rulebook: book.aspects
        otherwise: keep
        buses:
          can: {speaks: openlcb}
        controllers:
          west:
            flash: 65536
            ram: 65536
            chains:
              main:
                signals:
                - name: E1
                  form: one-head
                  heads: [searchlight]
                  by: event
                  bus: can
                  events: {Stop: %s, Approach: %s, Clear: %s}
                - {name: E2, form: one-head, heads: [searchlight], by: event, bus: can, first-event: 05.01.01.01.22.60.00.00}
        """
            .formatted(dots(STOP), dots(APPROACH), dots(CLEAR)));
    assertThat(session.run("build", "layout.yaml", "--output", "out")).as(session.out()).isZero();
    String table =
        Files.readString(CompiledC.FIRMWARE.resolve("openlcb_table.h"))
            .replace("bank", "west")
            .replace("CHAIN_HARBOUR", "CHAIN_MAIN")
            .replace("BANK", "WEST");
    Files.writeString(folder.resolve("west_table.h"), table);
    program =
        CompiledC.program(
            folder,
            "can",
            List.of(
                "-DOPENLCB_TABLE_HEADER=\"west_table.h\"",
                "-I" + folder,
                "-I" + folder.resolve("out"),
                CompiledC.source(folder, "can_steps.c"),
                "openlcb.c",
                "openlcb_signals.c"));
  }

  private static String dots(String event) {
    return event.replaceAll("(..)(?=.)", "$1.");
  }

  private static Step step(String done, String sent) {
    return new Step(done, sent);
  }

  /** Consumer Identified of all events in the order of the table: E1's three, then E2's. */
  private static String events(String... stands) {
    List<String> all =
        List.of(STOP, APPROACH, CLEAR, "0501010122600000", "0501010122600001", "0501010122600002");
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < stands.length; i++) {
      text.append("194C").append(stands[i]).append("12C ").append(all.get(i)).append(';');
    }
    return text.toString();
  }

  private static void check(Step... steps) throws Exception {
    StringBuilder typed = new StringBuilder();
    for (Step step : steps) {
      typed.append(step.done()).append('\n');
    }
    List<String> lines =
        CompiledC.run(List.of(program.toString()), typed.toString()).lines().toList();
    List<String> wanted = new ArrayList<>();
    List<String> got = new ArrayList<>();
    for (int i = 0; i < steps.length; i++) {
      wanted.add(steps[i].done() + " -> " + steps[i].sent());
      got.add(steps[i].done() + " -> " + lines.get(i).replaceAll("leds [^;]*;", ""));
    }
    assertThat(got).isEqualTo(wanted);
  }

  /** A node that is up, and then these steps. */
  private static void checkUp(Step... steps) throws Exception {
    List<Step> all =
        new ArrayList<>(List.of(step("begin " + ID, CHECKS), step("at 200", READY + UNKNOWN)));
    all.addAll(List.of(steps));
    check(all.toArray(Step[]::new));
  }

  @Test
  void it_reserves_an_alias_maps_it_and_says_what_it_consumes() throws Exception {
    check(
        step("begin " + ID, CHECKS),
        step("at 199", ""),
        step("at 200", READY + UNKNOWN),
        step("at 5000", ""));
    // Printed in CFS's technical note for this number, there with the alias FED.
    check(
        step("begin 123456789ABC", "17123840;16456840;15789840;14ABC840;"),
        step(
            "at 200",
            "10700840;10701840 123456789ABC;19101840 123456789ABC;"
                + UNKNOWN.replace("12C", "840")));
  }

  /** The generator and both sequences are printed in CFS's technical note. */
  @Test
  void aliases_come_from_its_number_and_are_never_zero() throws Exception {
    check(
        step("begin 000000000000", "1700011E;1600011E;1500011E;1400011E;"),
        step("got 1949011E", "17000521;16000521;15000521;14000521;"),
        step("got 19490521", "1700042E;1600042E;1500042E;1400042E;"),
        step("got 1949042E", "17000464;16000464;15000464;14000464;"));
    check(
        step("begin 020121000012", "17020113;16121113;15000113;14012113;"),
        step("got 17ABC113", "1702062D;1612162D;1500062D;1401262D;"));
  }

  @Test
  void before_it_is_reserved_a_clash_or_a_failure_begins_again() throws Exception {
    String again = "17020C4C;1610DC4C;15000C4C;14001C4C;";
    check(
        step("begin " + ID, CHECKS),
        step("at 150", ""),
        step("got 1070012C", again),
        step("at 300", ""),
        step("at 350", READY.replace("12C", "C4C") + UNKNOWN.replace("12C", "C4C")));
    check(
        step("begin " + ID, CHECKS), step("fails", ""), step("at 200", ""), step("at 201", again));
    // The frame of a node that is up is lost.
    checkUp(
        step("fails", ""), step("got 19490456", ""), step("got 19490456", "1917112C " + ID + ";"));
    check(step("begin " + ID, CHECKS), step("got 19490456", ""), step("got 10702456", ""));
  }

  @Test
  void a_frame_waits_until_the_controller_has_room() throws Exception {
    check(
        step("begin " + ID, CHECKS),
        step("room 1", ""),
        step("at 100", ""),
        step("at 400", "1070012C;"),
        step("at 401", "1070112C " + ID + ";"),
        step("room 0", ""),
        step("at 402", ""),
        step("room 1000", "1910112C " + ID + ";" + UNKNOWN));
    // The 200 ms begin when the fourth has gone out.
    check(
        step("room 3", ""),
        step("begin " + ID, CHECKS.substring(0, 27)),
        step("room 0", ""),
        step("at 500", ""),
        step("room 1000", CHECKS.substring(27)),
        step("at 699", ""),
        step("at 700", READY + UNKNOWN));
  }

  @Test
  void of_more_questions_than_places_the_first_are_answered() throws Exception {
    List<Step> steps = new ArrayList<>(List.of(step("room 0", "")));
    for (int i = 0; i < 20; i++) {
      steps.add(step("got 19828456 012C", ""));
    }
    // One has been fetched, and sixteen wait.
    steps.add(step("room 1000", "1966812C 045684;".repeat(17)));
    checkUp(steps.toArray(Step[]::new));
  }

  @Test
  void events_are_obeyed_in_both_forms_and_how_they_stand_is_told() throws Exception {
    checkUp(
        step("got 195B4456 " + APPROACH, ""),
        step("got 198F4456 " + APPROACH, "194C412C " + APPROACH + ";"),
        step("got 198F4456 " + STOP, "194C512C " + STOP + ";"),
        step("got 198F4456 0501010122600001", "194C712C 0501010122600001;"),
        step("got 19F16456 " + CLEAR, ""),
        step("got 198F4456 " + APPROACH, "194C512C " + APPROACH + ";"),
        step("got 198F4456 " + CLEAR, "194C412C " + CLEAR + ";"),
        step("got 195B4456 0501010122600002", ""),
        step("got 19970456", events("5", "5", "4", "5", "5", "4")),
        step("got 19968456 012C", events("5", "5", "4", "5", "5", "4")),
        // Not consumed, cut short, and the rest of a payload.
        step("got 198F4456 0101020001000406", ""),
        step("got 198F4456 0501010122600003", ""),
        step("got 198F4456 01010200010004", ""),
        step("got 195B4456 01010200010004", ""),
        step("got 19F15456 " + STOP, ""),
        step("got 19F14456 " + STOP, ""),
        step("got 198F4456 " + CLEAR, "194C412C " + CLEAR + ";"));
  }

  @Test
  void leds_show_what_events_call_up() throws Exception {
    String typed =
        "begin "
            + ID
            + "\nat 20\nat 200\ngot 195B4456 "
            + APPROACH
            + "\nat 220\ngot 195B4456 0501010122600002\nat 240\n";
    List<String> lit =
        CompiledC.run(List.of(program.toString()), typed)
            .lines()
            .filter(line -> line.contains("leds"))
            .map(line -> line.replaceAll(".*leds 0 ([0-9A-F]*);.*", "$1"))
            .toList();
    assertThat(lit).hasSize(3);
    // A LED is three bytes in the order GRB. Stop is red, Approach yellow, Clear green.
    assertThat(lit.get(0)).matches("00..0000..00").doesNotMatch("0{12}");
    assertThat(lit.get(1)).matches("(?!00)..(?!00)..00" + lit.get(0).substring(6));
    assertThat(lit.get(2)).matches(lit.get(1).substring(0, 6) + "(?!00)..00..");
  }

  @Test
  void it_answers_what_a_consumer_must_answer() throws Exception {
    checkUp(
        step("got 19490456", "1917112C " + ID + ";"),
        step("got 19490456 " + ID, "1917112C " + ID + ";"),
        step("got 19490456 02010D000002", ""),
        step("got 19488456 012C", "1917112C " + ID + ";"),
        step("got 19488456 012C02010D000002", "1917112C " + ID + ";"),
        step("got 19488456 012D", ""),
        step("got 19488456 01", ""),
        step("got 19828456 012C", "1966812C 045684;"),
        step("got 10702456", "1070112C " + ID + ";"),
        step("got 10702456 " + ID, "1070112C " + ID + ";"),
        step("got 10702456 02010D000002", ""),
        // Bit 28 is not looked at.
        step("got 09490456", "1917112C " + ID + ";"));
  }

  /** 1043 is printed in MNS as an unknown message; what is rejected comes last. */
  @Test
  void any_other_message_to_it_alone_is_rejected_once() throws Exception {
    checkUp(
        step("got 19DE8456 012C", "1906812C 045610430DE8;"),
        step("got 194F9456 012C", "1906812C 0456104304F9;"),
        step("got 19CC8456 112C000000000000", ""),
        step("got 19CC8456 312C000000000000", ""),
        step("got 19CC8456 212C0000", "1906812C 045610430CC8;"),
        // A rejection is not rejected, nor is the end of an exchange.
        step("got 19068456 012C10430DE8", ""),
        step("got 190A8456 012C10430DE8", ""),
        // Datagrams: the first and middle frames, then the last, and one alone.
        step("got 1B12C456 2000", ""),
        step("got 1C12C456 2000", ""),
        step("got 1D12C456 2000", "1906812C 045610431C48;"),
        step("got 1A12C456 2000", "1906812C 045610431C48;"),
        step("got 1A12D456 2000", ""),
        // Global ones that it does not know.
        step("got 19594456 " + STOP, ""),
        step("got 19914456 " + STOP, ""),
        step("got 19100456 02010D000002", ""));
  }

  @Test
  void its_alias_is_kept_from_others_or_given_up() throws Exception {
    checkUp(step("got 17ABC12C", "1070012C;"), step("got 1400112C", "1070012C;"));
    checkUp(
        step("got 1949012C", "1070312C " + ID + ";" + CHECKS.replace("12C", "C4C")),
        step("got 19490456", ""),
        step("at 399", ""),
        step("at 400", READY.replace("12C", "C4C") + UNKNOWN.replace("12C", "C4C")));
  }

  /**
   * What waits for the controller under the alias is let go with it; that it is given up is said.
   */
  @Test
  void nothing_is_sent_under_an_alias_that_was_given_up() throws Exception {
    checkUp(
        step("room 0", ""),
        step("got 19490456", ""),
        step("got 19828456 012C", ""),
        step("got 1949012C", ""),
        step("room 1000", "1070312C " + ID + ";" + CHECKS.replace("12C", "C4C")));
    // Given up again before that could be said.
    checkUp(
        step("room 0", ""),
        step("got 1949012C", ""),
        step("got 19490C4C", ""),
        step("room 1", "1070312C " + ID + ";"));
    checkUp(
        step("room 0", ""),
        step("got 19490456", ""),
        step("got 10701456 " + ID, ""),
        step("room 1000", "195B412C 0101000000000201;"));
  }

  @Test
  void two_nodes_of_one_number_make_it_silent() throws Exception {
    checkUp(
        step("got 10701456 " + ID, "195B412C 0101000000000201;"),
        step("got 19490456", ""),
        step("got 10702456", ""),
        step("got 1949012C", ""),
        step("at 9000", ""),
        step("begin " + ID, CHECKS));
    check(step("begin " + ID, CHECKS), step("got 10701456 " + ID, ""), step("at 9000", ""));
  }

  /** After noise it is up, silent, or on its way; begun again, it is as new. */
  @Test
  void noise_harms_nothing() throws Exception {
    for (int seed = 1; seed <= 20; seed++) {
      check(
          step("begin " + ID, CHECKS),
          step("at 200", READY + UNKNOWN),
          step("random " + seed + " 20000", ""));
    }
  }

  @Test
  void the_board_for_linux_compiles_and_says_what_is_missing() throws IOException {
    Toolchain.assumeInstalled("gcc");
    String program = folder.resolve("linux").toString();
    List<String> command = new ArrayList<>(List.of("gcc", "-std=gnu99"));
    command.addAll(Toolchain.STRICT.subList(1, Toolchain.STRICT.size()));
    command.addAll(
        List.of(
            "-DOPENLCB_TABLE_HEADER=\"west_table.h\"",
            "-Iexamples/firmware",
            "-I" + folder.toAbsolutePath(),
            "-I" + folder.resolve("out").toAbsolutePath(),
            "examples/firmware/openlcb.c",
            "examples/firmware/openlcb_signals.c",
            "examples/firmware/can_linux.c",
            "-o",
            program));
    assertThat(Toolchain.output(command)).isEmpty();
    assertThat(Toolchain.output(List.of(program, "none9", "02.01.0D.00.00.01")))
        .isEqualTo("none9: no CAN interface of this name is up\n");
    assertThat(Toolchain.output(List.of(program, "none9", "02.01.0D.00.00")))
        .isEqualTo("usage: can_linux INTERFACE NODE\n");
  }
}
