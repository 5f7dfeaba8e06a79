package dev.doublet.diff;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Everything that changed in meaning.
 *
 * @param files the files that were compared, sorted, by their new names
 * @param events worst first
 */
public record Changes(List<String> files, List<Event> events) {

  /** Sorts the events. */
  public Changes {
    files = files.stream().sorted().distinct().toList();
    events = events.stream().sorted(Event.ORDER).toList();
  }

  /** Those that lead to one thing. */
  public List<Event> of(Consequence consequence) {
    return events.stream().filter(e -> e.consequence() == consequence).toList();
  }

  /** The worst that they lead to; empty when nothing changed. */
  public Optional<Consequence> worst() {
    return events.stream().map(Event::consequence).findFirst();
  }

  /** True when some version could not be read whole, so that not everything was compared. */
  public boolean isPartial() {
    return events.stream().anyMatch(e -> e.sort() == Sort.NOT_COMPARED);
  }

  /**
   * Tells these changes from all others, so that an approval of others is seen to be old; 16
   * hexadecimal digits.
   */
  public String fingerprint() {
    List<String> parts = new ArrayList<>();
    events.forEach(e -> parts.add(e.fingerprint()));
    return Event.hash(parts.stream().sorted().toList());
  }
}
