package dev.doublet.layout.read;

import dev.doublet.layout.Signal;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What the lamps of a signal are called: "top" is every lamp of the head at that place, "yellow"
 * the lamp of that name in every head that has it, and "top yellow" one lamp. A place hides a lamp
 * of its name.
 */
final class LampNames {
  private final Map<String, List<Integer>> places = new LinkedHashMap<>();
  private final Map<String, List<Integer>> lamps = new LinkedHashMap<>();
  private final Map<String, List<Integer>> single = new LinkedHashMap<>();
  private int count;

  private LampNames() {}

  /** Those of a signal, counted in chain order from 0. */
  static LampNames of(Signal.Build build) {
    LampNames names = new LampNames();
    for (int place : build.wired()) {
      String head = build.form().places().get(place);
      HeadType type = build.heads().get(place);
      for (Lamp lamp : type.lamps()) {
        add(names.places, head, names.count);
        add(names.lamps, lamp.name(), names.count);
        add(names.single, head + " " + lamp.name(), names.count);
        names.count++;
      }
    }
    return names;
  }

  private static void add(Map<String, List<Integer>> to, String name, int lamp) {
    to.computeIfAbsent(name, n -> new ArrayList<>()).add(lamp);
  }

  /** How many lamps the signal has. */
  int count() {
    return count;
  }

  /** The lamps that a name means; none when it means nothing. */
  List<Integer> named(String name) {
    List<Integer> found = places.getOrDefault(name, lamps.getOrDefault(name, List.of()));
    return found.isEmpty() ? single.getOrDefault(name, List.of()) : found;
  }

  /** Every name. */
  Set<String> all() {
    Set<String> all = new LinkedHashSet<>(places.keySet());
    all.addAll(lamps.keySet());
    all.addAll(single.keySet());
    return all;
  }
}
