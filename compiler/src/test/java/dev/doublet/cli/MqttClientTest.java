package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The MQTT client of the firmware writes and takes packets as OASIS MQTT 3.1.1 has them. Bytes
 * marked printed stand in the standard, read in translation; the others are computed from its
 * layouts, by section.
 */
@Tag("slow")
class MqttClientTest {
  private static final String UP = "20020000";
  private static final String KEPT_5 = "330A00057369672F31000A35";

  @TempDir static Path folder;
  private static Path program;

  @BeforeAll
  static void compile() throws Exception {
    program =
        CompiledC.program(
            folder, "steps", List.of(CompiledC.source(folder, "mqtt_steps.c"), "mqtt.c"));
  }

  @Test
  void it_writes_packets_as_the_standard_lays_them_out() throws Exception {
    check(
        // 3.1; a will that is retained and of QoS 1, a clean session.
        step(
            "connect head1 30 st/head1 0",
            "101E00044D515454042E001E" + "00056865616431" + "000873742F6865616431" + "000130"),
        step("connect = 60", "100C00044D5154540402003C0000"),
        // The flags EE are the printed sample's CE with a retained will.
        step("connect a 10 w x u p", "101900044D51545404EE000A" + "000161000177000178000175000170"),
        // Into the 300 bytes that there are here a password of 279 fits, and none longer.
        step(
            "connect a 10 - - u " + "p".repeat(279),
            "10A90200044D51545404C2000A" + "0001610001750117" + "70".repeat(279)),
        step("connect a 10 - - u " + "p".repeat(280), ""),
        // 3.8; the payload of the second is printed.
        step("begin 80", ""),
        step("subscribe sig/1 1", "820A000100057369672F3101"),
        step("subscribe sig/2 1", ""),
        step("begin 80", ""),
        step("last 9", ""),
        step("subscribe a/b 1 c/d 2", "820E000A0003612F62010003632F6402"),
        // 3.3
        step("begin 80", ""),
        step("publish sig/1 0 0 0", "300800057369672F3130"),
        step("publish sig/1 0 1 0", "310800057369672F3130"),
        step("publish sig/1 0 1", "310700057369672F31"),
        step("publish sig/1 1 1 5", "330A00057369672F31000135"),
        step("publish sig/1 1 1 5", ""),
        step("take " + UP + "40020001", "accepted;published;"),
        step("publish st/head1 1 1 1", "330D000873742F6865616431000231"),
        step("begin 80", ""),
        step("last 9", ""),
        step("publish a/b 1 0", "32070003612F62000A"),
        // Identifiers are never 0 (2.3.1).
        step("begin 80", ""),
        step("last 65535", ""),
        step("publish a 1 0", "32050001610001"),
        // 2.2.3: 100 bytes of topic and 30 of payload.
        step(
            "publish " + "t".repeat(100) + " 0 0 " + "p".repeat(30),
            "3084010064" + "74".repeat(100) + "70".repeat(30)),
        step("publish " + "t".repeat(300) + " 0 0", ""),
        // 3.4, 3.12, 3.14
        step("puback 10", "4002000A"),
        step("ping", "C000"),
        step("disconnect", "E000"));
  }

  @Test
  void it_takes_what_a_server_may_send() throws Exception {
    check(
        step("begin 80", ""),
        step("take " + UP, "accepted;"),
        step("subscribe sig/1 1", "820A000100057369672F3101"),
        // A retained message may come before SUBACK (3.8.4).
        step("take " + KEPT_5, "kept sig/1 35 10;"),
        step("take 9003000101", "subscribed;"),
        step("take 3A0A00057369672F31000A35", "live sig/1 35 10;"),
        step("take 300800057369672F3135", "live sig/1 35 0;"),
        step("take 300700057369672F31", "live sig/1  0;"),
        step("take D000", ""),
        // One acknowledgement that nothing waits for is no error.
        step("take 40020007", ""),
        step("subscribe sig/1 1", "820A000200057369672F3101"),
        step("take 9003000280", "not subscribed;"),
        step("take 3007000373C3A93535" + "C000", "live sé 3535 0;broken;"),
        step("begin 80", ""),
        step("take 20020005", "refused 5;"),
        // Refused means closed by the server (3.2.2.3), so nothing may follow.
        step("take D000", ""));
  }

  @Test
  void it_gives_up_on_what_a_server_must_not_send() throws Exception {
    List<String[]> steps = new ArrayList<>();
    for (String first : // types 0, 1, 8, 10, 12, 14 and 15, and QoS 2's (2.2.1)
        List.of("00", "10", "50", "62", "70", "82", "A2", "B0", "C0", "E0", "F0")) {
      broken(steps, UP, first + "00");
    }
    // Other flags than 2.2.2 has.
    for (String first : List.of("21", "22", "41", "42", "48", "91", "92", "D1", "D2")) {
      broken(steps, UP, first);
    }
    // The first packet must be CONNACK, and the only one; what it may hold (3.2).
    broken(steps, "", KEPT_5);
    broken(steps, "", "D000");
    broken(steps, "", "40020001");
    broken(steps, UP, UP);
    broken(steps, "", "20020100");
    broken(steps, "", "20020200");
    broken(steps, "", "20020006");
    broken(steps, "", "200100");
    broken(steps, "", "2003000000");
    // A fifth byte of length (2.2.3), or more than there is room for (4.8).
    broken(steps, UP, "30FFFFFFFF");
    broken(steps, UP, "3051");
    broken(steps, UP, "30FFFFFF7F");
    // QoS 2, which was not asked for, and 3; an identifier of 0 (2.3.1).
    broken(steps, UP, "340A00057369672F31000135");
    broken(steps, UP, "3607000161000135");
    broken(steps, UP, "320A00057369672F31000035");
    // Topics: empty, beyond the packet, too short for any, wildcards, zeros, and no UTF-8 (4.7.3,
    // 1.5.3).
    broken(steps, UP, "30020000");
    broken(steps, UP, "30040003612F");
    broken(steps, UP, "320400027369");
    broken(steps, UP, "3000");
    broken(steps, UP, "300100");
    for (String topic :
        List.of(
            "2B",
            "23",
            "00",
            "80",
            "C3",
            "C328",
            "C080",
            "E08080",
            "EDA080",
            "EDBFBF",
            "F0808080",
            "F4908080",
            "F5808080",
            "FF",
            "E282",
            "612F2B",
            "612F23")) {
      int length = topic.length() / 2;
      broken(steps, UP, String.format("30%02X00%02X", length + 2, length) + topic);
    }
    // Lengths of PUBACK and PINGRESP (3.4, 3.13).
    broken(steps, UP, "400100");
    broken(steps, UP, "4003000100");
    broken(steps, UP, "D00100");
    // SUBACK: unasked, of another identifier, of another code, of another count (3.9).
    broken(steps, UP, "9003000101");
    for (String suback : List.of("9003000201", "9003000103", "900300017F", "90020001")) {
      steps.add(step("begin 80", ""));
      steps.add(step("take " + UP, "accepted;"));
      steps.add(step("subscribe sig/1 1", "820A000100057369672F3101"));
      steps.add(step("take " + suback, "broken;"));
    }
    check(steps.toArray(String[][]::new));
  }

  @Test
  void the_room_of_74_bytes_does_for_a_topic_of_64_and_a_payload_of_4() throws Exception {
    // Two bytes of header are not kept.
    String packet = "3248" + "0040" + "74".repeat(64) + "0001" + "35".repeat(4);
    check(
        step("begin 72", ""),
        step("take " + UP + packet, "accepted;live " + "t".repeat(64) + " 35353535 1;"),
        step("begin 71", ""),
        step("take " + UP + packet, "accepted;broken;"));
  }

  @Test
  void lengths_are_told_as_the_standard_prints_them() throws Exception {
    // 2.2.3 prints the least and the largest length of each number of bytes.
    List<String[]> steps = new ArrayList<>();
    for (String[] pair :
        List.of(
            step("7F", "127"),
            step("8001", "128"),
            step("FF7F", "16383"),
            step("808001", "16384"))) {
      int length = Integer.parseInt(pair[1]);
      String packet = "30" + pair[0] + "0001" + "61" + "00".repeat(length - 3);
      String message = "live a " + "00".repeat(length - 3) + " 0;";
      steps.add(step("begin " + length, ""));
      steps.add(step("take " + UP + packet, "accepted;" + message));
      steps.add(step("begin " + (length - 1), ""));
      steps.add(step("take " + UP + packet, "accepted;broken;"));
    }
    check(steps.toArray(String[][]::new));
  }

  @Test
  void no_bytes_make_it_step_outside_its_room() throws Exception {
    CompiledC.assumeInstalled("clang", "no fuzzer makes up packets");
    Path fuzzer = folder.resolve("fuzzer");
    List<String> clang =
        List.of(
            "clang",
            "-g",
            "-O1",
            "-std=c99",
            "-fsanitize=fuzzer,address,undefined",
            "-fno-sanitize-recover=all",
            "-I.",
            "mqtt.c",
            "../../compiler/src/test/chip/fuzz/mqtt.c",
            "-o",
            fuzzer.toString());
    CompiledC.run(clang, "");
    assertThat(CompiledC.fuzzed(fuzzer, 200_000)).contains("DONE");
  }

  /** A connection that is given up after these bytes, and not before the last packet's. */
  private static void broken(List<String[]> steps, String before, String bytes) {
    steps.add(step("begin 80", ""));
    steps.add(step("take " + before, before.isEmpty() ? "" : "accepted;"));
    steps.add(step("take " + bytes, "broken;"));
  }

  private static String[] step(String line, String answer) {
    return new String[] {line, answer};
  }

  private static void check(String[]... steps) throws Exception {
    String script = String.join("\n", Stream.of(steps).map(s -> s[0]).toList()) + "\n";
    List<String> answers = CompiledC.run(List.of(program.toString()), script).lines().toList();
    List<String> found = new ArrayList<>();
    List<String> expected = new ArrayList<>();
    for (int i = 0; i < steps.length; i++) {
      expected.add(steps[i][0] + " -> " + steps[i][1]);
      found.add(steps[i][0] + " -> " + (i < answers.size() ? answers.get(i) : "nothing"));
    }
    assertThat(found).isEqualTo(expected);
  }
}
