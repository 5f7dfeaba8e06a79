package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.HeadType;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * Reads which servos move the arms of signals. What a kind says of how they move is of use when one
 * of its signals has servos, which is known when all were read.
 */
final class Servos {
  /** What is said of servos beside their channels. */
  private static final List<Key<?>> MANNERS = List.of(Keys.PULSES, Keys.TRAVEL);

  private final Complaints complaints;
  private final Map<Span, Manner> said = new LinkedHashMap<>();
  private final Set<Span> used = new HashSet<>();

  /**
   * A key of {@link #MANNERS} that is said.
   *
   * @param arms whether a signal of it has arms
   */
  private record Manner(Key<?> key, boolean arms) {}

  Servos(Complaints complaints) {
    this.complaints = complaints;
  }

  /**
   * The servos of a signal, top to bottom; none where no channels are said.
   *
   * @return empty when something of it is wrong, which has been complained of
   */
  Optional<List<Servo>> read(Section signal, Signal.Build build) {
    List<Integer> arms =
        IntStream.range(0, build.heads().size())
            .filter(place -> build.heads().get(place).isArm())
            .boxed()
            .toList();
    if (arms.stream().anyMatch(a -> build.heads().get(a).positions().size() < 2)) {
      return Optional.empty(); // of which the rulebook's own findings tell
    }
    note(signal, !arms.isEmpty());
    List<String> places = arms.stream().map(build.form().places()::get).toList();
    boolean sound = arms.isEmpty() || arePulsesSound(signal, build, arms, places);
    if (!signal.says(Keys.SERVOS)) {
      return sound ? Optional.of(List.of()) : Optional.empty();
    }
    Optional<List<Integer>> channels = signal.read(Keys.SERVOS);
    if (channels.isPresent() && channels.get().size() != arms.size()) {
      complaints.wrong(
          "wrong-count",
          signal.at(Keys.SERVOS),
          "{servos} for a signal with {arms}",
          arms.isEmpty()
              ? "leave \"servos\" out: it has no arm to move."
              : "list a channel for each arm, top to bottom: {each}.",
          Datum.count("servos", channels.get().size(), "servo"),
          Datum.count("arms", arms.size(), "arm"),
          Datum.of("each", places));
      sound = false;
    }
    if (!sound || channels.isEmpty()) {
      return Optional.empty();
    }
    List<Servo> servos = new ArrayList<>();
    for (int i = 0; i < arms.size(); i++) {
      HeadType arm = build.heads().get(arms.get(i));
      String place = places.get(i);
      List<Integer> pulses =
          signal.read(Keys.PULSES).stream()
              .flatMap(List::stream)
              .filter(p -> p.name().text().equals(place))
              .findFirst()
              .flatMap(Takes.Named::value)
              .orElse(Servo.even(arm.positions().size()));
      servos.add(
          new Servo(
              channels.get().get(i),
              arms.get(i),
              arm.positions(),
              pulses,
              signal.read(Keys.TRAVEL).orElse(Servo.TRAVEL)));
    }
    return Optional.of(servos);
  }

  private void note(Section signal, boolean arms) {
    for (Key<?> key : MANNERS) {
      Optional<Span> at = signal.entry(key).map(e -> e.key().span());
      at.ifPresent(
          span ->
              said.merge(
                  span, new Manner(key, arms), (a, b) -> new Manner(key, a.arms() || b.arms())));
      at.filter(span -> signal.maySay(Keys.SERVOS)).ifPresent(used::add);
    }
  }

  /** Complains of what was said of the servos of signals that have none. */
  void complainOfIdle() {
    said.keySet().removeAll(used);
    said.forEach(
        (span, manner) -> {
          Datum key = Datum.of("key", manner.key().name());
          if (manner.arms()) {
            complaints.missingKey(
                span,
                "\"{key}\" is said where no servo moves an arm",
                "add \"servos: \" to the signal, with a channel for each of its arms, or delete \"{key}\".",
                key);
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

  private boolean arePulsesSound(
      Section signal, Signal.Build build, List<Integer> arms, List<String> places) {
    boolean sound = true;
    for (Takes.Named<List<Integer>> pulses : signal.read(Keys.PULSES).orElse(List.of())) {
      int at = places.indexOf(pulses.name().text());
      if (at < 0) {
        complaints.unknownName(pulses.name(), "arm of this signal", places);
        sound = false;
      } else if (pulses.value().isPresent()) {
        HeadType arm = build.heads().get(arms.get(at));
        sound &= isSound(pulses.name().span(), pulses.value().get(), arm.positions());
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
