package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.HeadType;
import dev.doublet.source.Span;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Reads which servos and motors move the arms of signals. What a kind says of how they move is of
 * use when one of its signals has any, which is known when all were read.
 */
final class Servos {
  /** What is said of servos and motors beside their channels, in the order of the keys. */
  private static final List<Manner> MANNERS =
      List.of(
          new Manner(Keys.PULSES, Keys.SERVOS),
          new Manner(Keys.TRAVEL, Keys.SERVOS),
          new Manner(Keys.COIL_TIME, Keys.MOTORS));

  private final Complaints complaints;
  private final Map<Span, Said> said = new LinkedHashMap<>();
  private final Set<Span> used = new HashSet<>();

  /**
   * A key that says how arms move.
   *
   * @param of the channels that it goes with
   */
  private record Manner(Key<?> key, Key<?> of) {}

  /**
   * A manner that is said.
   *
   * @param arms whether a signal of it has arms
   */
  private record Said(Manner manner, boolean arms) {}

  Servos(Complaints complaints) {
    this.complaints = complaints;
  }

  /**
   * An arm of a signal.
   *
   * @param index among its heads, top to bottom
   * @param place its name
   */
  private record Arm(int index, String place, HeadType make) {}

  /**
   * What moves the arms of a signal, top to bottom; nothing where no channels are said.
   *
   * @return empty when something of it is wrong, which has been complained of
   */
  Optional<List<Servo>> read(Section signal, Signal.Build build) {
    List<Arm> arms =
        IntStream.range(0, build.heads().size())
            .filter(i -> build.heads().get(i).isArm())
            .mapToObj(i -> new Arm(i, build.form().places().get(i), build.heads().get(i)))
            .toList();
    if (arms.stream().anyMatch(a -> a.make().positions().size() < 2)) {
      return Optional.empty(); // of which the rulebook's own findings tell
    }
    note(signal, !arms.isEmpty());
    boolean sound = arms.isEmpty() || arePulsesSound(signal, arms);
    Map<Integer, Servo> movers = new TreeMap<>();
    boolean motors = true;
    for (Takes.Named<Integer> motor : signal.read(Keys.MOTORS).orElse(List.of())) {
      motors &= motor(signal, motor, arms, movers);
    }
    sound &= motors;
    if (!motors) {
      return Optional.empty(); // of which arms are left for servos nothing is known
    }
    List<Arm> others = arms.stream().filter(a -> !movers.containsKey(a.index())).toList();
    if (signal.says(Keys.SERVOS)) {
      sound &= servos(signal, others, movers);
    } else if (sound && !movers.isEmpty() && !others.isEmpty()) {
      complaints.missingKey(
          signal.entry(Keys.MOTORS).orElseThrow().key().span(),
          "motors move some arms of this signal, and nothing moves {others}",
          "add \"servos: \" with a channel for each of these, or a motor.",
          Datum.of("others", others.stream().map(Arm::place).toList()));
      sound = false;
    }
    boolean read = !signal.says(Keys.MOTORS) || signal.read(Keys.MOTORS).isPresent();
    return sound && read ? Optional.of(List.copyOf(movers.values())) : Optional.empty();
  }

  /**
   * True when there are as many channels as signals need that are written as one, whose channels go
   * on from the first; otherwise that was complained of.
   */
  boolean reach(Section first, int signals) {
    int needed = highest(first) + (signals - 1) * arms(first);
    if (needed <= Keys.MOST_SERVO) {
      return true;
    }
    complaints.wrong(
        "out-of-range",
        first.span(),
        "the last of these signals would need channel {channel}",
        "channels end at {most}: write fewer signals in one line, or hang some on another controller.",
        Datum.of("channel", needed),
        Datum.of("most", Keys.MOST_SERVO));
    return false;
  }

  /**
   * What is said of a signal that comes so many places after one whose channels are said: each is
   * higher by as many as a signal has arms that are moved.
   */
  static Section inStep(Section first, int after) {
    int further = after * arms(first);
    Section said = first;
    Optional<List<Integer>> servos = first.read(Keys.SERVOS);
    if (servos.isPresent()) {
      said = said.saying(Keys.SERVOS, servos.get().stream().map(c -> c + further).toList());
    }
    Optional<List<Takes.Named<Integer>>> motors = first.read(Keys.MOTORS);
    if (motors.isPresent()) {
      said =
          said.saying(
              Keys.MOTORS,
              motors.get().stream()
                  .map(m -> new Takes.Named<>(m.name(), m.node(), m.value().map(c -> c + further)))
                  .toList());
    }
    return said;
  }

  private static int arms(Section signal) {
    return channels(signal).size();
  }

  private static int highest(Section signal) {
    return channels(signal).stream().max(Comparator.naturalOrder()).orElse(0);
  }

  private static List<Integer> channels(Section signal) {
    return Stream.concat(
            signal.read(Keys.SERVOS).stream().flatMap(List::stream),
            signal.read(Keys.MOTORS).stream()
                .flatMap(List::stream)
                .flatMap(m -> m.value().stream()))
        .toList();
  }

  /** Reads one motor; false when something of it is wrong. */
  private boolean motor(
      Section signal, Takes.Named<Integer> motor, List<Arm> arms, Map<Integer, Servo> movers) {
    Optional<Arm> arm = arms.stream().filter(a -> a.place().equals(motor.name().text())).findAny();
    if (arm.isEmpty()) {
      complaints.unknownName(
          motor.name(), "arm of this signal", arms.stream().map(Arm::place).toList());
      return false;
    }
    List<String> ends = arm.get().make().positions();
    if (ends.size() != Servo.ENDS) {
      complaints.wrong(
          "contradiction",
          motor.name().span(),
          "a motor has two ends, and this arm {positions}",
          "let a servo move it.",
          Datum.count("positions", ends.size(), "position"));
      return false;
    }
    int coilTime = signal.read(Keys.COIL_TIME).orElse(Servo.COIL_TIME);
    motor
        .value()
        .ifPresent(
            channel ->
                movers.put(
                    arm.get().index(), Servo.motor(channel, arm.get().index(), ends, coilTime)));
    return motor.value().isPresent();
  }

  /** Reads the servos of the arms that no motor moves; false when something of them is wrong. */
  private boolean servos(Section signal, List<Arm> arms, Map<Integer, Servo> movers) {
    Optional<List<Integer>> channels = signal.read(Keys.SERVOS);
    if (channels.isPresent() && channels.get().size() != arms.size()) {
      complaints.wrong(
          "wrong-count",
          signal.at(Keys.SERVOS),
          movers.isEmpty()
              ? "{servos} for a signal with {arms}"
              : "{servos} for {arms} without a motor",
          arms.isEmpty()
              ? "leave \"servos\" out: it has no arm to move."
              : "list a channel for each arm, top to bottom: {each}.",
          Datum.count("servos", channels.get().size(), "servo"),
          Datum.count("arms", arms.size(), "arm"),
          Datum.of("each", arms.stream().map(Arm::place).toList()));
      return false;
    }
    for (int i = 0; i < arms.size() && channels.isPresent(); i++) {
      Arm arm = arms.get(i);
      movers.put(
          arm.index(),
          new Servo(
              channels.get().get(i),
              arm.index(),
              arm.make().positions(),
              pulses(signal, arm),
              signal.read(Keys.TRAVEL).orElse(Servo.TRAVEL)));
    }
    return channels.isPresent();
  }

  private static List<Integer> pulses(Section signal, Arm arm) {
    return signal.read(Keys.PULSES).stream()
        .flatMap(List::stream)
        .filter(p -> p.name().text().equals(arm.place()))
        .findFirst()
        .flatMap(Takes.Named::value)
        .orElse(Servo.even(arm.make().positions().size()));
  }

  private void note(Section signal, boolean arms) {
    for (Manner manner : MANNERS) {
      Optional<Span> at = signal.entry(manner.key()).map(e -> e.key().span());
      at.ifPresent(
          span ->
              said.merge(
                  span, new Said(manner, arms), (a, b) -> new Said(manner, a.arms() || b.arms())));
      at.filter(span -> signal.maySay(manner.of())).ifPresent(used::add);
    }
  }

  /** Complains of what was said of the servos and motors of signals that have none. */
  void complainOfIdle() {
    said.keySet().removeAll(used);
    said.forEach(
        (span, idle) -> {
          String of = idle.manner().of().name();
          Datum key = Datum.of("key", idle.manner().key().name());
          if (idle.arms()) {
            complaints.missingKey(
                span,
                "\"{key}\" is said where no " + of.substring(0, of.length() - 1) + " moves an arm",
                "add \"{of}: \" to the signal, with a channel for each arm, or delete \"{key}\".",
                key,
                Datum.of("of", of));
          } else {
            complaints.wrong(
                "contradiction",
                span,
                "\"{key}\" is said where there is no arm",
                "delete it, or give the signal a head that is an arm.",
                key);
          }
        });
  }

  private boolean arePulsesSound(Section signal, List<Arm> arms) {
    List<String> places = arms.stream().map(Arm::place).toList();
    List<String> motors =
        signal.read(Keys.MOTORS).orElse(List.of()).stream().map(m -> m.name().text()).toList();
    boolean served = signal.maySay(Keys.SERVOS);
    boolean sound = true;
    for (Takes.Named<List<Integer>> pulses : signal.read(Keys.PULSES).orElse(List.of())) {
      int at = places.indexOf(pulses.name().text());
      if (at < 0) {
        complaints.unknownName(pulses.name(), "arm of this signal", places);
        sound = false;
      } else if (served && motors.contains(pulses.name().text())) {
        complaints.wrong(
            "contradiction",
            pulses.name().span(),
            "the arm {arm} is moved by a motor, which takes no pulses of its own",
            "leave its pulses out, or let a servo move it.",
            Datum.of("arm", pulses.name().text()));
        sound = false;
      } else if (pulses.value().isPresent()) {
        Span place = pulses.name().span();
        sound &= isSound(place, pulses.value().get(), arms.get(at).make().positions());
      }
    }
    return sound;
  }

  private boolean isSound(Span place, List<Integer> pulses, List<String> positions) {
    if (pulses.size() != positions.size()) {
      complaints.wrong(
          "wrong-count",
          place,
          "{pulses} for an arm of {positions}",
          "list the pulse of each: {each}.",
          Datum.count("pulses", pulses.size(), "pulse"),
          Datum.count("positions", positions.size(), "position"),
          Datum.of("each", positions));
      return false;
    }
    for (int i = 1; i < pulses.size(); i++) {
      int before = pulses.get(i - 1);
      int one = pulses.get(i);
      boolean turns = i > 1 && (before - pulses.get(i - 2) > 0) != (one - before > 0);
      if (one == before || turns) {
        complaints.wrong(
            "contradiction",
            place,
            one == before
                ? "the arm has one pulse, {pulse}, for \"{before}\" and \"{one}\""
                : "the arm turns back between \"{before}\" ({earlier}) and \"{one}\" ({pulse})",
            "list pulses that rise, or fall, from each position to the next: {each}.",
            Datum.of("before", positions.get(i - 1)),
            Datum.of("earlier", before),
            Datum.of("one", positions.get(i)),
            Datum.of("pulse", one),
            Datum.of("each", positions));
        return false;
      }
    }
    return true;
  }
}
