package dev.doublet.layout.read;

import dev.doublet.layout.Feed;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Signal;
import java.util.List;

/**
 * A head's part of its signal.
 *
 * @param lamp its first lamp, counted in chain order from the signal's first
 * @param led its first place of the chain, likewise
 * @param leds how many places of the chain it takes
 * @param feeds what lights its lamps, as for {@link Kind}
 */
record Slice(int lamp, int led, int leds, List<Feed> feeds) {

  static Slice of(Signal.Build build, int place) {
    int first = 0;
    for (int before : build.wired()) {
      if (before == place) {
        break;
      }
      first += build.heads().get(before).lamps().size();
    }
    int from = first;
    int end = from + build.heads().get(place).lamps().size();
    if (build.feeds().isEmpty()) {
      return new Slice(from, from, end - from, List.of());
    }
    List<Feed> feeds =
        build.feeds().stream().filter(f -> f.lit().allMatch(l -> l >= from && l < end)).toList();
    int led = (int) build.feeds().stream().filter(f -> f.lit().allMatch(l -> l < from)).count();
    boolean chips = feeds.stream().anyMatch(f -> f.chip().isPresent());
    return new Slice(
        from,
        led,
        feeds.size(),
        chips ? feeds.stream().map(f -> f.from(from)).toList() : List.of());
  }
}
