package dev.doublet.diff;

import dev.doublet.diagnostic.Words;
import dev.doublet.diff.SignalPairs.Pair;
import dev.doublet.diff.SignalPairs.Placed;
import dev.doublet.layout.Command;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Signal;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * What changed of signals but for what commands call up: what stands where, and what it shows. It
 * is long because each thing in which two signals can differ has its words here.
 */
final class SignalChanges {
  private final Terms terms;
  private final Map<String, String> aspects;
  private final Map<String, String> controllers;
  private final BookChanges book;
  private final List<Event> alike = new ArrayList<>();
  private final Map<List<Object>, List<Pair>> moves = new LinkedHashMap<>();
  private final Map<List<Object>, List<UnitPair>> addresses = new LinkedHashMap<>();

  /** Kinds are shared by many units, so what one shows is compared once. */
  private final Map<List<Object>, List<Event>> shows = new LinkedHashMap<>();

  private record UnitPair(Unit before, Unit after) {}

  private SignalChanges(BookChanges book, Map<String, String> controllers) {
    this.book = book;
    this.terms = book.terms();
    this.aspects = book.aspects().names();
    this.controllers = controllers;
  }

  static List<Event> of(SignalPairs signals, BookChanges book) {
    SignalChanges changes = new SignalChanges(book, signals.controllers());
    List<Event> events = new ArrayList<>();
    signals.gone().forEach(p -> events.add(gone(p)));
    signals.added().forEach(p -> events.add(added(p)));
    signals.pairs().forEach(changes::compare);
    events.addAll(LayoutChanges.gathered(changes.alike));
    changes.moves.forEach(
        (by, pairs) -> events.add(moved(by.get(0).equals(by.get(1)), (Integer) by.get(2), pairs)));
    changes.addresses.forEach((by, pairs) -> events.add(readdressed(pairs)));
    return events;
  }

  private static Event gone(Placed placed) {
    return Event.of(Sort.SIGNAL_GONE, Consequence.WORK, subject(placed.signal().name()), "is gone")
        .from(place(placed), "");
  }

  private static Event added(Placed placed) {
    return Event.of(Sort.SIGNAL_ADDED, Consequence.WORK, subject(placed.signal().name()), "is new")
        .from("", place(placed));
  }

  private static String place(Placed placed) {
    String commands =
        placed.signal().units().stream()
            .map(SignalWords::command)
            .collect(Collectors.joining(", "));
    return placed.signal().build().form().name() + " on " + placed.place() + ", " + commands;
  }

  private void compare(Pair pair) {
    Signal was = pair.before().signal();
    Signal is = pair.after().signal();
    if (!was.name().equals(is.name())) {
      alike.add(
          Event.of(Sort.SIGNAL_RENAMED, Consequence.TEXT, subject(is.name()), "has another name")
              .from(was.name(), is.name())
              .because("compared as it hangs in the same place and has the same commands"));
    }
    place(pair);
    build(was, is);
    if (was.units().size() != is.units().size()) {
      alike.add(
          Event.of(Sort.WAY_CHANGED, Consequence.WORK, subject(is.name()), "is commanded otherwise")
              .from(commands(was), commands(is)));
      return;
    }
    for (int i = 0; i < is.units().size(); i++) {
      unit(was, is, was.units().get(i), is.units().get(i));
    }
  }

  private static String commands(Signal signal) {
    return signal.units().size() == 1
        ? "the whole signal by " + signal.units().get(0).kind().way().word()
        : Words.count(signal.units().size(), "head") + ", each by itself";
  }

  private void place(Pair pair) {
    Placed was = pair.before();
    Placed is = pair.after();
    String home = was.controller().name();
    String old = controllers.getOrDefault(home, home) + " " + was.first().chain().name();
    if (!old.equals(is.chain()) || was.led() != is.led()) {
      moves
          .computeIfAbsent(List.of(old, is.chain(), is.led() - was.led()), k -> new ArrayList<>())
          .add(pair);
    }
  }

  private static Event moved(boolean same, int by, List<Pair> pairs) {
    Placed was = pairs.get(0).before();
    Placed is = pairs.get(0).after();
    String further = by > 0 ? "further along" : "nearer to the start of";
    String said =
        same
            ? "hangs " + Words.count(Math.abs(by), "LED") + " " + further + " chain " + is.chain()
            : "hangs on another chain";
    List<String> names = pairs.stream().map(p -> p.after().signal().name()).toList();
    String were =
        pairs.stream().map(p -> p.before().place()).distinct().collect(Collectors.joining("; "));
    String are =
        pairs.stream().map(p -> p.after().place()).distinct().collect(Collectors.joining("; "));
    boolean one = pairs.size() == 1;
    return Event.of(Sort.SIGNAL_MOVED, Consequence.WORK, subject(names.get(0)), said)
        .of(names)
        .from(
            one ? were : first(was.place(), pairs.size()),
            one ? are : first(is.place(), pairs.size()));
  }

  private static String first(String words, int count) {
    return words + " (and " + (count - 1) + " more)";
  }

  private void build(Signal was, Signal is) {
    List<String> old = new ArrayList<>();
    List<String> now = new ArrayList<>();
    Signal.Build a = was.build();
    Signal.Build b = is.build();
    differ("form ", terms.form(a.form().name()), b.form().name(), old, now);
    differ("heads ", SignalWords.heads(a, terms), SignalWords.heads(b, null), old, now);
    differ(
        "plates ",
        String.join(", ", terms.plates(a.plates())),
        String.join(", ", b.plates()),
        old,
        now);
    differ("wired ", SignalWords.wired(a), SignalWords.wired(b), old, now);
    differ("chips ", SignalWords.chips(a), SignalWords.chips(b), old, now);
    differ("scale ", SignalWords.scale(a.size()), SignalWords.scale(b.size()), old, now);
    differ("lenses ", SignalWords.lenses(a.size()), SignalWords.lenses(b.size()), old, now);
    differ("heads at ", SignalWords.heights(was.mast()), SignalWords.heights(is.mast()), old, now);
    if (!old.isEmpty()) {
      alike.add(
          Event.of(Sort.SIGNAL_REBUILT, Consequence.WORK, subject(is.name()), "is built otherwise")
              .from(String.join("; ", old), String.join("; ", now)));
    }
    boolean glow = is.units().stream().anyMatch(u -> u.kind().onApproach());
    boolean glowed = was.units().stream().anyMatch(u -> u.kind().onApproach());
    if (glow != glowed) {
      alike.add(
          Event.of(
                  Sort.SIGNAL_SHOWS,
                  Consequence.SEEN,
                  subject(is.name()),
                  glow ? "is dark until a train approaches" : "is lit without a train too")
              .at("approach")
              .from(
                  glowed ? "lit on approach" : "always lit",
                  glow ? "lit on approach" : "always lit"));
    }
  }

  private static void differ(
      String what, String was, String is, List<String> old, List<String> now) {
    if (!was.equals(is)) {
      old.add(what + (was.isEmpty() ? "none" : was));
      now.add(what + (is.isEmpty() ? "none" : is));
    }
  }

  private void unit(Signal was, Signal is, Unit old, Unit now) {
    Subject subject = subject(now.name());
    String wasWay = SignalWords.way(old.kind().way());
    String isWay = SignalWords.way(now.kind().way());
    if (!wasWay.equals(isWay)) {
      alike.add(
          Event.of(Sort.WAY_CHANGED, Consequence.WORK, subject, "is commanded otherwise")
              .from(wasWay, isWay));
    }
    if (!SignalWords.command(old).equals(SignalWords.command(now))) {
      addresses
          .computeIfAbsent(distance(old, now), k -> new ArrayList<>())
          .add(new UnitPair(old, now));
    }
    if (!old.dimming().equals(now.dimming())) {
      alike.add(
          Event.of(Sort.LIGHT_CHANGED, Consequence.SEEN, subject, "shines otherwise: brightness")
              .at("brightness")
              .from(SignalWords.dimming(old.dimming()), SignalWords.dimming(now.dimming())));
    }
    ArmChanges.of(new ArmChanges.Arms(was, old), new ArmChanges.Arms(is, now), terms)
        .forEach(e -> alike.add(e.of(List.of(now.name()))));
    List<Object> key =
        List.of(
            System.identityHashCode(old.kind()),
            System.identityHashCode(now.kind()),
            System.identityHashCode(was.build()),
            System.identityHashCode(is.build()));
    shows
        .computeIfAbsent(key, k -> shows(was, is, old.kind(), now.kind()))
        .forEach(e -> alike.add(e.of(List.of(now.name()))));
  }

  private List<Event> shows(Signal was, Signal is, Kind old, Kind now) {
    List<Event> events = new ArrayList<>();
    Map<String, State> states = new LinkedHashMap<>();
    for (State state : old.states()) {
      states.put(name(state), state);
    }
    for (State state : now.states()) {
      State before = states.remove(state.name());
      if (before == null) {
        events.add(
            Event.of(Sort.SIGNAL_SHOWS, Consequence.SEEN, subject(""), "can show " + state.name())
                .at(state.name())
                .from("", Display.over(state.picture()))
                .seen(null, sight(book.after(), is, state)));
      } else {
        shown(was, is, before, state).ifPresent(events::add);
      }
    }
    states.forEach(
        (name, state) ->
            events.add(
                Event.of(
                        Sort.SIGNAL_SHOWS,
                        Consequence.SEEN,
                        subject(""),
                        "can no longer show " + name)
                    .at(name)
                    .from(Display.over(terms.displays(state.picture())), "")
                    .seen(sight(book.before(), was, state), null)));
    if (!SignalWords.glows(old, terms).equals(SignalWords.glows(now, null))) {
      events.add(
          Event.of(
                  Sort.SIGNAL_SHOWS,
                  Consequence.SEEN,
                  subject(""),
                  "goes otherwise from one light to another")
              .at("glow")
              .from(SignalWords.glows(old, terms), SignalWords.glows(now, null)));
    }
    return events;
  }

  private Optional<Event> shown(Signal was, Signal is, State before, State after) {
    String old = Display.over(terms.displays(before.picture()));
    String now = Display.over(after.picture());
    String oldLamps = SignalWords.lamps(terms.displays(before.lit()));
    String nowLamps = SignalWords.lamps(after.lit());
    if (old.equals(now) && oldLamps.equals(nowLamps)) {
      return Optional.empty();
    }
    boolean same = old.equals(now);
    return Optional.of(
        Event.of(
                Sort.SIGNAL_SHOWS,
                Consequence.SEEN,
                subject(""),
                "shows " + after.name() + (same ? " with other lamps" : " otherwise"))
            .at(after.name())
            .from(same ? oldLamps : old, same ? nowLamps : now)
            .seen(sight(book.before(), was, before), sight(book.after(), is, after)));
  }

  /** What a crew sees of a state; null for a head that is commanded by itself. */
  static Sight sight(Rulebook version, Signal signal, State state) {
    Signal.Build build = signal.build();
    return state.picture().size() == build.form().places().size()
        ? new Sight(version, build.form(), build.plates(), build.heads(), state.picture())
        : null;
  }

  /** What a state of the earlier version is called in the next. */
  private String name(State state) {
    return state.aspect().isPresent()
        ? aspects.getOrDefault(state.name(), state.name())
        : Display.over(terms.displays(state.picture()));
  }

  /** Signals whose addresses moved by as much are told of together. */
  private static List<Object> distance(Unit old, Unit now) {
    Command was = old.command();
    Command is = now.command();
    List<Object> distance = new ArrayList<>(List.of(was.bus().name(), is.bus().name()));
    if (was.addresses().isEmpty() || was.addresses().size() != is.addresses().size()) {
      distance.add(now.name());
      return distance;
    }
    for (int i = 0; i < is.addresses().size(); i++) {
      distance.add(is.addresses().get(i) - was.addresses().get(i));
    }
    return distance;
  }

  private static Event readdressed(List<UnitPair> pairs) {
    List<String> names = pairs.stream().map(p -> p.after().name()).toList();
    UnitPair first = pairs.get(0);
    String was = SignalWords.command(first.before());
    String is = SignalWords.command(first.after());
    boolean one = pairs.size() == 1;
    return Event.of(
            Sort.SIGNAL_READDRESSED, Consequence.WORK, subject(names.get(0)), "listens elsewhere")
        .of(names)
        .from(one ? was : first(was, pairs.size()), one ? is : first(is, pairs.size()));
  }

  static Subject subject(String name) {
    return Subject.of("signal", name);
  }
}
