package dev.doublet.chart;

import dev.doublet.layout.Servo;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** What of {@link Wiring} moves arms, as parts of a page in Markdown. */
final class ArmWiring {
  private static final String SERVO_SUPPLY =
      """

      Servos are fed and fused apart from the LEDs, and not counted here: one that is held fast may draw
      an ampere (from memory; its own data sheet says how much). All grounds are joined.
      """;

  private static final String MOTOR_SUPPLY =
      """

      A motor stays at either end without current, also when power fails, and so does its arm. Its coils are fed
      and fused apart from the LEDs, and not counted here; one that the sketch leaves on gets hot (from memory).
      """;

  private ArmWiring() {}

  /** What moves arms, by the channels; nothing where none is moved. */
  static String of(Wiring wiring) {
    SortedMap<Integer, String> servos = new TreeMap<>();
    SortedMap<Integer, String> motors = new TreeMap<>();
    wiring.chains().stream()
        .flatMap(strand -> strand.leds().stream())
        .flatMap(led -> led.lamp().stream())
        .forEach(
            lit ->
                lit.unit()
                    .servos()
                    .forEach(
                        s ->
                            (s.isMotor() ? motors : servos)
                                .put(s.channel(), Markdown.row(mover(lit, s)))));
    return section(
            "Servos", List.of("channel", "arm", "pulses", "end to end"), servos, SERVO_SUPPLY)
        + section(
            "Motors", List.of("channel", "arm", "coils", "current for"), motors, MOTOR_SUPPLY);
  }

  private static String section(
      String title, List<String> heads, SortedMap<Integer, String> rows, String below) {
    return rows.isEmpty()
        ? ""
        : "\n## " + title + "\n\n" + Markdown.heads(heads) + String.join("", rows.values()) + below;
  }

  private static List<String> mover(Wiring.Lit lit, Servo servo) {
    List<String> ends = new ArrayList<>();
    for (int i = 0; i < servo.positions().size(); i++) {
      ends.add(
          servo.positions().get(i)
              + (servo.isMotor()
                  ? " by the " + (i == 0 ? "first" : "second")
                  : " " + servo.pulses().get(i) + " µs"));
    }
    boolean whole = lit.unit().kind().isWholeSignal();
    return List.of(
        String.valueOf(servo.channel()),
        lit.unit().name()
            + (whole ? " " + lit.signal().build().form().places().get(servo.place()) : ""),
        String.join(", ", ends),
        (servo.isMotor() ? servo.coilTime() : servo.travel()) + " ms");
  }
}
