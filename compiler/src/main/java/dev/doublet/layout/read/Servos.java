package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.HeadType;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** Reads which servos move the arms of a signal. */
final class Servos {
  private Servos() {}

  /**
   * The servos of a signal, top to bottom; none where no channels are said.
   *
   * @return empty when something of it is wrong, which has been complained of
   */
  static Optional<List<Servo>> read(Section said, Signal.Build build, Complaints complaints) {
    List<Integer> arms =
        IntStream.range(0, build.heads().size())
            .filter(place -> build.heads().get(place).isArm())
            .boxed()
            .toList();
    if (arms.stream().anyMatch(a -> build.heads().get(a).positions().size() < 2)) {
      return Optional.empty(); // of which the rulebook's own findings tell
    }
    List<String> places = arms.stream().map(build.form().places()::get).toList();
    boolean sound = true;
    for (Takes.Named<List<Integer>> pulses : said.read(Keys.PULSES).orElse(List.of())) {
      int at = places.indexOf(pulses.name().text());
      int listed = pulses.value().map(List::size).orElse(0);
      if (at < 0) {
        complaints.unknownName(pulses.name(), "arm of this signal", places);
        sound = false;
      } else if (listed > 0 && listed != build.heads().get(arms.get(at)).positions().size()) {
        HeadType arm = build.heads().get(arms.get(at));
        complaints.wrong(
            "wrong-count",
            pulses.name().span(),
            "{pulses} for an arm of {positions}",
            "list the pulse of each: {each}.",
            Datum.count("pulses", listed, "pulse"),
            Datum.count("positions", arm.positions().size(), "position"),
            Datum.of("each", arm.positions()));
        sound = false;
      }
    }
    if (!said.says(Keys.SERVOS)) {
      return sound ? Optional.of(List.of()) : Optional.empty();
    }
    Optional<List<Integer>> channels = said.read(Keys.SERVOS);
    if (channels.isPresent() && channels.get().size() != arms.size()) {
      complaints.wrong(
          "wrong-count",
          said.at(Keys.SERVOS),
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
          said.read(Keys.PULSES).stream()
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
              said.read(Keys.TRAVEL).orElse(Servo.TRAVEL)));
    }
    return Optional.of(servos);
  }
}
