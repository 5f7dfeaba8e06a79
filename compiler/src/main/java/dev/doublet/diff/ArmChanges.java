package dev.doublet.diff;

import dev.doublet.layout.Servo;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;

/** What changed of how the arms of a unit are moved. */
final class ArmChanges {
  private ArmChanges() {}

  /** A unit with the signal that it is of. */
  record Arms(Signal signal, Unit unit) {

    private String place(Servo servo) {
      return signal.place(unit, servo).map(place -> place + " ").orElse("");
    }

    private Optional<Servo> at(int place) {
      return unit.servos().stream().filter(s -> s.place() == place).findFirst();
    }
  }

  /**
   * Where its arms are wired to, and how they stand and travel where the wires are as they were.
   */
  static List<Event> of(Arms was, Arms is, Terms terms) {
    List<Event> events = new ArrayList<>();
    wired(was, is).ifPresent(events::add);
    moves(was, is, terms).ifPresent(events::add);
    return events;
  }

  private static Optional<Event> wired(Arms was, Arms is) {
    String old = channels(was);
    String now = channels(is);
    return old.equals(now)
        ? Optional.empty()
        : Optional.of(
            Event.of(
                    Sort.ARM_REWIRED,
                    Consequence.WORK,
                    SignalChanges.subject(""),
                    "has its arms at other outputs")
                .from(old, now));
  }

  private static String channels(Arms arms) {
    String channels =
        arms.unit().servos().stream()
            .map(
                s ->
                    arms.place(s)
                        + (s.isMotor()
                            ? "at motor " + s.channel() + " for " + s.coilTime().getAsInt() + " ms"
                            : "at servo " + s.channel()))
            .collect(Collectors.joining(", "));
    return channels.isEmpty() ? "moved by nothing of the table" : channels;
  }

  private static Optional<Event> moves(Arms was, Arms is, Terms terms) {
    List<String> old = new ArrayList<>();
    List<String> now = new ArrayList<>();
    TreeSet<Integer> places = new TreeSet<>();
    was.unit().servos().forEach(s -> places.add(s.place()));
    for (int place : places) {
      Optional<Servo> before = was.at(place);
      Optional<Servo> after = is.at(place);
      boolean servos = !before.get().isMotor() && after.isPresent() && !after.get().isMotor();
      if (servos) {
        String a = was.place(before.get()) + words(before.get(), terms::look);
        String b = is.place(after.get()) + words(after.get(), Function.identity());
        if (!a.equals(b)) {
          old.add(a);
          now.add(b);
        }
      }
    }
    return old.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Event.of(
                    Sort.ARM_MOVES,
                    Consequence.SEEN,
                    SignalChanges.subject(""),
                    "holds or moves its arms otherwise")
                .from(String.join("; ", old), String.join("; ", now)));
  }

  /** "level 1000 µs, raised 2000 µs, in at most 1000 ms". */
  private static String words(Servo servo, Function<String, String> name) {
    List<String> stands = new ArrayList<>();
    for (int i = 0; i < servo.positions().size(); i++) {
      stands.add(name.apply(servo.positions().get(i)) + " " + servo.pulses().get(i) + " µs");
    }
    return String.join(", ", stands) + ", in at most " + servo.travel() + " ms";
  }
}
