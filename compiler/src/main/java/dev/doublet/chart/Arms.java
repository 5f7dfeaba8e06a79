package dev.doublet.chart;

import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Signal;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** What the arms of a signal do, in words. */
final class Arms {
  private Arms() {}

  /**
   * What the lamps of a unit show in a state, head by head: what is seen of its arms by night.
   *
   * @return empty for a unit without arms
   */
  static String byNight(Signal signal, Unit unit, State state) {
    List<HeadType> heads = heads(signal, unit);
    if (heads.stream().noneMatch(HeadType::isArm)) {
      return "";
    }
    List<Display> seen = new ArrayList<>();
    for (int i = 0; i < heads.size(); i++) {
      Display shown = state.picture().get(i);
      seen.add(heads.get(i).isArm() ? lamp(heads.get(i), shown) : shown);
    }
    return Display.over(seen);
  }

  /** The colour of the lamp of an arm, which has one or none. */
  private static Display lamp(HeadType arm, Display position) {
    return arm.lights(position.look()).stream()
        .flatMap(Collection::stream)
        .findFirst()
        .map(Lit::colour)
        .map(Display::steady)
        .orElse(Display.DARK);
  }

  /** The makes of a unit's heads: those of its signal, or the one that it is. */
  private static List<HeadType> heads(Signal signal, Unit unit) {
    List<String> names = unit.kind().heads();
    return unit.kind().isWholeSignal()
        ? signal.build().heads()
        : signal.build().heads().stream()
            .filter(h -> h.name().equals(names.get(0)))
            .limit(1)
            .toList();
  }

  /** What moves each arm: "servo 0 moves home in at most 1500 ms". */
  static List<String> movers(Signal signal, Unit unit) {
    return unit.servos().stream()
        .map(
            s ->
                Words.say(
                    "%s moves %s%s",
                    mover(s),
                    signal.place(unit, s).orElse("it"),
                    s.isMotor() ? "" : Words.say(" in at most %d ms", s.travel())))
        .toList();
  }

  /** Where each arm is held: "servo 0 at 1640 µs", "motor 3 at level". */
  static List<String> stands(Unit unit, State state) {
    return unit.servos().stream()
        .map(
            s ->
                Words.say(
                    "%s at %s",
                    mover(s),
                    s.isMotor()
                        ? state.picture().get(s.place()).look()
                        : s.pulse(state.picture()) + " µs"))
        .toList();
  }

  private static String mover(Servo servo) {
    return (servo.isMotor() ? "motor " : "servo ") + servo.channel();
  }
}
