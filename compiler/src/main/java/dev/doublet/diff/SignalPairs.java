package dev.doublet.diff;

import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/**
 * Which signal of one version is which of the next: the one of its name, else the only one that
 * hangs in its place and listens to its commands.
 *
 * @param pairs in the order of the next version
 * @param gone those that have no successor
 * @param added those that have no predecessor
 * @param controllers controllers with another name that drive the same signals, old to new
 */
record SignalPairs(
    List<Pair> pairs, List<Placed> gone, List<Placed> added, Map<String, String> controllers) {

  /** A signal and the controller that drives it. */
  record Placed(Controller controller, Signal signal) {
    /** Its first LED on the chain, from 1. */
    int led() {
      return first().led() + 1;
    }

    /** What of it hangs first on the chain. */
    Unit first() {
      return signal.units().stream().min(Comparator.comparingInt(Unit::led)).orElseThrow();
    }

    /** "chain home main, LED 5". */
    String place() {
      return "chain " + chain() + ", LED " + led();
    }

    /** "home main". */
    String chain() {
      return controller.name() + " " + first().chain().name();
    }
  }

  /** A signal then and now. */
  record Pair(Placed before, Placed after) {}

  static SignalPairs of(Layout before, Layout after) {
    Map<String, Placed> were = placed(before);
    Map<String, Placed> are = placed(after);
    Map<String, String> controllers = controllers(before, after);
    Map<String, Placed> gone = new LinkedHashMap<>(were);
    gone.keySet().removeAll(are.keySet());
    Map<List<Object>, List<Placed>> free = new HashMap<>();
    gone.values()
        .forEach(p -> free.computeIfAbsent(seat(p, controllers), k -> new ArrayList<>()).add(p));
    List<Pair> pairs = new ArrayList<>();
    List<Placed> added = new ArrayList<>();
    for (Placed now : are.values()) {
      Placed same = were.get(now.signal().name());
      List<Placed> seated = free.getOrDefault(seat(now, Map.of()), List.of());
      if (same != null) {
        pairs.add(new Pair(same, now));
      } else if (seated.size() == 1 && gone.remove(seated.get(0).signal().name()) != null) {
        pairs.add(new Pair(seated.get(0), now));
      } else {
        added.add(now);
      }
    }
    return new SignalPairs(
        List.copyOf(pairs), List.copyOf(gone.values()), List.copyOf(added), controllers);
  }

  private static Map<String, Placed> placed(Layout layout) {
    Map<String, Placed> placed = new LinkedHashMap<>();
    for (Controller controller : layout.controllers()) {
      controller.signals().stream()
          .filter(s -> !s.units().isEmpty())
          .forEach(s -> placed.put(s.name(), new Placed(controller, s)));
    }
    return placed;
  }

  /** Where a signal hangs and what it listens to, but for a topic, which often holds its name. */
  private static List<Object> seat(Placed placed, Map<String, String> controllers) {
    List<Object> seat = new ArrayList<>();
    String controller = placed.controller().name();
    seat.add(controllers.getOrDefault(controller, controller));
    seat.add(placed.first().chain().name());
    seat.add(placed.led());
    for (Unit unit : placed.signal().units()) {
      seat.add(unit.kind().way().word());
      seat.add(unit.command().bus().name());
      seat.add(unit.command().addresses());
      seat.add(unit.command().events());
    }
    return seat;
  }

  /** A controller's signals move with it to its new name; one of them is enough to know it. */
  private static Map<String, String> controllers(Layout before, Layout after) {
    Map<String, String> home = new HashMap<>();
    after.controllers().forEach(c -> c.signals().forEach(s -> home.put(s.name(), c.name())));
    Map<String, String> renamed = new TreeMap<>();
    for (Controller controller : before.controllers()) {
      boolean gone =
          after.controllers().stream().noneMatch(c -> c.name().equals(controller.name()));
      List<String> homes =
          controller.signals().stream()
              .map(s -> home.get(s.name()))
              .filter(Objects::nonNull)
              .distinct()
              .toList();
      if (gone && homes.size() == 1) {
        boolean fresh = before.controllers().stream().noneMatch(c -> c.name().equals(homes.get(0)));
        if (fresh && !renamed.containsValue(homes.get(0))) {
          renamed.put(controller.name(), homes.get(0));
        }
      }
    }
    return renamed;
  }

  /** What the signals of the earlier version are called in the next. */
  Map<String, String> names() {
    Map<String, String> names = new TreeMap<>();
    pairs.forEach(p -> names.put(p.before().signal().name(), p.after().signal().name()));
    return names;
  }
}
