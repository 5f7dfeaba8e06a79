package dev.doublet.diff;

import dev.doublet.chart.Item;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Board;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Lay;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Supply;
import dev.doublet.table.TableNeeds;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;

/** What changed of controllers, chains, buses and parts, and of the tables. */
final class BoardChanges {
  private final LayoutFacts before;
  private final LayoutFacts after;
  private final Terms terms;
  private final Map<String, String> controllers;
  private final List<Event> events = new ArrayList<>();

  private BoardChanges(
      LayoutFacts before, LayoutFacts after, BookChanges book, SignalPairs signals) {
    this.before = before;
    this.after = after;
    this.terms = book.terms();
    this.controllers = signals.controllers();
  }

  static List<Event> of(
      LayoutFacts before, LayoutFacts after, BookChanges book, SignalPairs signals) {
    BoardChanges changes = new BoardChanges(before, after, book, signals);
    changes.buses();
    changes.controllers();
    return changes.events;
  }

  private void buses() {
    Map<String, Bus> were = named(before.layout().buses(), Bus::name);
    Map<String, Bus> are = named(after.layout().buses(), Bus::name);
    for (String name : names(were, are)) {
      String was = were.containsKey(name) ? words(were.get(name)) : "";
      String is = are.containsKey(name) ? words(are.get(name)) : "";
      String said = was.isEmpty() ? "is new" : is.isEmpty() ? "is gone" : "is something else";
      differ(Sort.BUS_CHANGED, Subject.of("bus", name), said, was, is);
    }
  }

  private static String words(Bus bus) {
    return switch (bus.speaks()) {
      case DCC ->
          "dcc, address 1 on decoder "
              + bus.firstDecoder()
              + ", "
              + bus.aspectBits()
              + " bits of a value";
      case MQTT -> "mqtt, topics after \"" + bus.topics() + "\"";
      case OPENLCB -> "openlcb";
    };
  }

  private void controllers() {
    Map<String, Controller> were =
        named(before.layout().controllers(), c -> controllers.getOrDefault(c.name(), c.name()));
    Map<String, Controller> are = named(after.layout().controllers(), Controller::name);
    controllers.forEach(
        (old, now) ->
            events.add(
                Event.of(
                        Sort.NAME_CHANGED,
                        Consequence.TEXT,
                        Subject.of("controller", now),
                        "has another name")
                    .from(old, now)
                    .because("compared as it drives the same signals")));
    for (String name : names(were, are)) {
      Controller was = were.get(name);
      Controller is = are.get(name);
      Subject subject = Subject.of("controller", name);
      if (was == null || is == null) {
        differ(
            Sort.CONTROLLER_CHANGED,
            subject,
            was == null ? "is new" : "is gone",
            was == null ? "" : Words.count(was.signals().size(), "signal"),
            is == null ? "" : Words.count(is.signals().size(), "signal"));
      } else {
        differ(Sort.CONTROLLER_CHANGED, subject, "is another board", board(was), board(is));
        differ(Sort.CONTROLLER_CHANGED, subject, "has other memory", memory(was), memory(is));
        chains(name, was, is);
        parts(subject, was, is);
        table(subject, was, is);
      }
    }
  }

  private static String board(Controller controller) {
    return controller.board().map(Board::word).orElse("none named");
  }

  private static String memory(Controller controller) {
    return "flash " + bytes(controller.flash()) + ", ram " + bytes(controller.ram());
  }

  private static String bytes(OptionalInt bytes) {
    return bytes.isPresent() ? Integer.toString(bytes.getAsInt()) : "not said";
  }

  private void chains(String controller, Controller was, Controller is) {
    Map<String, Chain> were = named(was.chains(), Chain::name);
    Map<String, Chain> are = named(is.chains(), Chain::name);
    for (String name : names(were, are)) {
      Subject subject = Subject.of("chain", controller + " " + name);
      Chain old = were.get(name);
      Chain now = are.get(name);
      if (old == null || now == null) {
        differ(
            Sort.CHAIN_CHANGED,
            subject,
            old == null ? "is new" : "is gone",
            old == null ? "" : Words.count(old.leds(), "LED"),
            now == null ? "" : Words.count(now.leds(), "LED"));
      } else {
        List<String> a = new ArrayList<>();
        List<String> b = new ArrayList<>();
        Map<String, String> features = features(old);
        features(now)
            .forEach(
                (what, words) -> {
                  if (!words.equals(features.get(what))) {
                    a.add(what + " " + features.get(what));
                    b.add(what + " " + words);
                  }
                });
        differ(
            Sort.CHAIN_CHANGED,
            subject,
            "is wired otherwise",
            String.join("; ", a),
            String.join("; ", b));
        light(subject, old, now);
      }
    }
  }

  private static Map<String, String> features(Chain chain) {
    Map<String, String> features = new LinkedHashMap<>();
    Supply supply = chain.supply();
    features.put("place", Integer.toString(chain.index() + 1));
    features.put("LEDs", Integer.toString(chain.leds()));
    features.put(
        "part",
        chain.part().order()
            + ", "
            + Words.number(chain.part().milliampsPerChannel())
            + " mA a channel, "
            + Words.number(chain.part().milliampsAtRest())
            + " mA at rest, rests "
            + chain.part().latchMicros()
            + " us, "
            + Words.number(chain.part().minimumVolts())
            + " to "
            + Words.number(chain.part().maximumVolts())
            + " V");
    features.put("supply", Words.number(supply.volts()) + " V, " + supply.milliamps() + " mA");
    features.put(
        "cable",
        chain.cable().isSaid()
            ? chain.cable().words() + ", " + Words.number(chain.cable().metres()) + " m"
            : "not said");
    features.put("fed at", chain.feeds().toString());
    features.put("lies", lay(chain.cable().lay()));
    return features;
  }

  private static String lay(Lay lay) {
    List<String> said = new ArrayList<>();
    if (!lay.at().isEmpty()) {
      said.add("LEDs at " + lay.at().stream().distinct().map(Words::number).toList() + " m");
    }
    lay.feeds()
        .forEach(
            f ->
                said.add(
                    "a feed at LED "
                        + f.at()
                        + wire(f.wire())
                        + f.supply().map(s -> " from another supply").orElse("")));
    lay.boards()
        .forEach(b -> said.add("board " + b.name() + ", " + Words.count(b.sockets(), "socket")));
    lay.leads().forEach(l -> said.add("a lead to LED " + (l.first() + 1) + wire(l.wire())));
    return said.isEmpty() ? "evenly" : String.join(", ", said);
  }

  private static String wire(Cable wire) {
    return wire.isSaid() ? " by " + Words.number(wire.metres()) + " m of " + wire.words() : "";
  }

  private void light(Subject subject, Chain old, Chain now) {
    light(subject, "brightness", old.brightness() + " percent", now.brightness() + " percent");
    light(subject, "brightness by night", old.night() + " percent", now.night() + " percent");
    Map<String, List<Integer>> drives = new TreeMap<>();
    old.part().drive().forEach((colour, drive) -> drives.put(terms.look(colour), drive));
    now.part()
        .drive()
        .forEach(
            (colour, drive) -> {
              if (drives.containsKey(colour)) {
                light(subject, colour, levels(drives.get(colour)), levels(drive));
              }
            });
  }

  private static String levels(List<Integer> drive) {
    return "driven "
        + String.join(", ", drive.stream().map(level -> Integer.toString(level)).toList());
  }

  private void light(Subject subject, String what, String was, String is) {
    if (!was.equals(is)) {
      events.add(
          Event.of(Sort.LIGHT_CHANGED, Consequence.SEEN, subject, "shines otherwise: " + what)
              .at(what)
              .from(was, is));
    }
  }

  private void parts(Subject subject, Controller was, Controller is) {
    Map<String, Double> old = counts(was, before.layout());
    Map<String, Double> now = counts(is, after.layout());
    List<String> a = new ArrayList<>();
    List<String> b = new ArrayList<>();
    for (String name : names(old, now)) {
      double had = old.getOrDefault(name, 0.0);
      double has = now.getOrDefault(name, 0.0);
      if (had != has) {
        a.add(Words.number(had) + " " + name);
        b.add(Words.number(has) + " " + name);
      }
    }
    differ(
        Sort.PARTS_CHANGED,
        subject,
        "needs other parts",
        String.join(", ", a),
        String.join(", ", b));
  }

  private static Map<String, Double> counts(Controller controller, Layout layout) {
    Map<String, Double> counts = new TreeMap<>();
    Item.of(controller, layout.prices())
        .forEach(item -> counts.merge(item.what(), item.count(), Double::sum));
    return counts;
  }

  private void table(Subject subject, Controller was, Controller is) {
    TableNeeds old = before.needs(was);
    TableNeeds now = after.needs(is);
    if (!old.digest().equals(now.digest())) {
      events.add(
          Event.of(Sort.TABLE_CHANGED, Consequence.WORK, subject, "needs its new table loaded")
              .at(now.digest())
              .from(size(old), size(now)));
    }
  }

  private static String size(TableNeeds needs) {
    return needs.isWritable() ? Words.count(needs.flash(), "byte") : "no table can hold it";
  }

  private void differ(Sort sort, Subject subject, String said, String was, String is) {
    if (!was.equals(is)) {
      events.add(Event.of(sort, Consequence.WORK, subject, said).from(was, is));
    }
  }

  private static <T> Map<String, T> named(List<T> things, Function<T, String> name) {
    Map<String, T> named = new TreeMap<>();
    things.forEach(thing -> named.put(name.apply(thing), thing));
    return named;
  }

  private static Set<String> names(Map<String, ?> before, Map<String, ?> after) {
    Set<String> names = new TreeSet<>(before.keySet());
    names.addAll(after.keySet());
    return names;
  }
}
