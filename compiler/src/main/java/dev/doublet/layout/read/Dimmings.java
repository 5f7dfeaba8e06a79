package dev.doublet.layout.read;

import dev.doublet.layout.Dimming;
import dev.doublet.layout.Signal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads how bright a signal, its heads and its lamps are. */
final class Dimmings {
  private final int percent;
  private final List<Integer> lamps;

  private Dimmings(int percent, List<Integer> lamps) {
    this.percent = percent;
    this.lamps = lamps;
  }

  /**
   * What a signal says of them.
   *
   * @return empty when it names lamps that it has not, which has been complained of
   */
  static Optional<Dimmings> read(Section said, Signal.Build build, Complaints complaints) {
    LampNames names = LampNames.of(build);
    int percent = said.read(Keys.OWN_BRIGHTNESS).orElse(100);
    Optional<List<Takes.Named<Integer>>> listed = said.read(Keys.LAMP_BRIGHTNESS);
    List<Integer> lamps = new ArrayList<>();
    for (int lamp = 0; lamp < names.count(); lamp++) {
      int at = lamp;
      lamps.add(
          listed.stream()
              .flatMap(List::stream)
              .filter(n -> names.named(n.name().text()).contains(at))
              .min(
                  (a, b) ->
                      names.named(a.name().text()).size() - names.named(b.name().text()).size())
              .flatMap(Takes.Named::value)
              .orElse(100));
    }
    boolean known = true;
    for (Takes.Named<Integer> named : listed.orElse(List.of())) {
      if (names.named(named.name().text()).isEmpty()) {
        complaints.unknownName(
            named.name(), "head or lamp of a signal of form " + build.form().name(), names.all());
        known = false;
      }
    }
    return known ? Optional.of(new Dimmings(percent, lamps)) : Optional.empty();
  }

  /** Those of some lamps of the signal, in chain order. */
  Dimming of(int first, int count) {
    return Dimming.of(percent, lamps.subList(first, first + count));
  }
}
