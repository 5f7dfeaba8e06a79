package dev.doublet.chart;

import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Servo;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;

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

  /**
   * An arm that is moved.
   *
   * @param lit a lamp of its unit
   * @param servo what moves it
   */
  record Moved(Wiring.Lit lit, Servo servo) {

    /** The arm's place; empty for a head commanded by itself, whose unit is named after it. */
    String place() {
      return lit.signal().place(lit.unit(), servo).orElse("");
    }

    /** The make of its head. */
    String head() {
      return lit.unit().kind().heads().get(servo.place());
    }

    /** "level 1000 µs, raised 2000 µs", or which coil moves it there. */
    String stands() {
      List<String> ends = new ArrayList<>();
      for (int i = 0; i < servo.positions().size(); i++) {
        ends.add(
            servo.positions().get(i)
                + (servo.isMotor()
                    ? " by the " + (i == 0 ? "first coil" : "second coil")
                    : " " + servo.pulses().get(i) + " µs"));
      }
      return String.join(", ", ends);
    }

    /** How long it is on its way at most, or how long current flows in a coil. */
    int millis() {
      return servo.coilTime().orElse(servo.travel());
    }
  }

  /** All arms that are moved, by their channels. */
  static List<Moved> moved(Wiring wiring) {
    SortedMap<Integer, Moved> moved = new TreeMap<>();
    wiring.chains().stream()
        .flatMap(strand -> strand.leds().stream())
        .flatMap(led -> led.lamp().stream())
        .forEach(
            lit -> lit.unit().servos().forEach(s -> moved.put(s.channel(), new Moved(lit, s))));
    return List.copyOf(moved.values());
  }

  /** What moves arms, by the channels; nothing where none is moved. */
  static String of(Wiring wiring) {
    return section("Servos", List.of("pulses", "end to end"), wiring, false, SERVO_SUPPLY)
        + section("Motors", List.of("coils", "current for"), wiring, true, MOTOR_SUPPLY);
  }

  private static String section(
      String title, List<String> heads, Wiring wiring, boolean motors, String below) {
    String rows =
        moved(wiring).stream()
            .filter(m -> m.servo().isMotor() == motors)
            .map(
                m ->
                    Markdown.row(
                        List.of(
                            String.valueOf(m.servo().channel()),
                            (m.lit().unit().name() + " " + m.place()).strip(),
                            m.stands(),
                            m.millis() + " ms")))
            .collect(Collectors.joining());
    return rows.isEmpty()
        ? ""
        : "\n## "
            + title
            + "\n\n"
            + Markdown.heads(Words.both(List.of("channel", "arm"), heads))
            + rows
            + below;
  }
}
