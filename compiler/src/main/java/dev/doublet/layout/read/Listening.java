package dev.doublet.layout.read;

import dev.doublet.bus.Accessory;
import dev.doublet.bus.EventId;
import dev.doublet.bus.Packet;
import dev.doublet.bus.TopicName;
import dev.doublet.layout.Command;
import dev.doublet.layout.Kind;
import dev.doublet.layout.State;
import dev.doublet.layout.read.Design.UnitDesign;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Where units listen: what they say, or the next free address of their bus. Units must be asked for
 * in the order of the file.
 */
final class Listening {
  private final Map<String, Taken> taken = new HashMap<>();
  private final Complaints complaints;

  /** Starts with every address free. */
  Listening(Complaints complaints) {
    this.complaints = complaints;
  }

  /** The addresses of one bus. */
  private static final class Taken {
    private final BitSet addresses = new BitSet();
    private int last;

    /** The first of so many free addresses in a row after the last one taken. */
    int next(int count) {
      int first = last + 1;
      while (addresses.get(first, first + count).cardinality() > 0) {
        first++;
      }
      return first;
    }

    void take(int first, int count) {
      addresses.set(first, first + count);
      last = first + count - 1;
    }
  }

  /**
   * Where a unit listens.
   *
   * @param said what the signal or head says, based on its kind
   * @param topicName what the unit's topic ends in where it says none
   */
  Optional<Command> of(UnitDesign unit, Section said, String topicName) {
    return switch (unit.kind().mode()) {
      case TOPIC -> topic(unit, said, topicName);
      case EVENT -> events(unit, said);
      default ->
          addresses(unit, said, unit.kind().addresses())
              .map(list -> new Command(unit.bus(), list, "", List.of()));
    };
  }

  private Optional<List<Integer>> addresses(UnitDesign unit, Section said, int count) {
    Taken bus = taken.computeIfAbsent(unit.bus().name(), b -> new Taken());
    if (said.says("addresses") && !said.ownSays("address")) {
      List<Integer> listed = new ArrayList<>();
      for (YamlNode item : said.items("addresses", "a list of addresses").orElse(List.of())) {
        said.integer(item, "addresses", Accessory.LOWEST, Accessory.HIGHEST).ifPresent(listed::add);
      }
      listed.forEach(address -> bus.take(address, 1));
      return listed.size() == count ? Optional.of(listed) : Optional.empty();
    }
    OptionalInt first;
    if (said.says("address")) {
      first = said.integer("address", Accessory.LOWEST, Accessory.HIGHEST);
    } else {
      first = OptionalInt.of(bus.next(count));
    }
    if (first.isEmpty()) {
      return Optional.empty();
    }
    int last = first.getAsInt() + count - 1;
    if (last > Accessory.HIGHEST) {
      complaints.badValue(
          said.entry("address").map(e -> e.value().span()).orElse(said.place()),
          "bus \"" + unit.bus().name() + "\" would need address " + last + " here",
          "addresses end at " + Accessory.HIGHEST + ": choose a lower one, or use another bus.");
      return Optional.empty();
    }
    bus.take(first.getAsInt(), count);
    List<Integer> run = new ArrayList<>();
    for (int address = first.getAsInt(); address <= last; address++) {
      run.add(address);
    }
    return Optional.of(run);
  }

  private Optional<Command> topic(UnitDesign unit, Section said, String name) {
    Optional<YamlNode.Scalar> own = said.scalar("topic", "a topic");
    if (own.isEmpty() && said.says("topic")) {
      return Optional.empty();
    }
    String before = unit.bus().topics();
    String topic =
        own.map(YamlNode.Scalar::text).orElse(before.isEmpty() ? name : before + "/" + name);
    Optional<String> fault = TopicName.fault(topic);
    if (fault.isPresent()) {
      complaints.badValue(
          own.map(YamlNode.Scalar::span).orElse(said.place()),
          "\"" + topic + "\" is no topic: " + fault.get(),
          own.isPresent()
              ? "write levels with \"/\" between, such as \"layout/signals/W1\"."
              : "say its \"topic\", or rename the signal.");
      return Optional.empty();
    }
    return Optional.of(new Command(unit.bus(), List.of(), topic, List.of()));
  }

  private Optional<Command> events(UnitDesign unit, Section said) {
    Optional<List<Long>> events =
        switch (saying(said)) {
          case "events" -> listedEvents(unit.kind(), said);
          case "first-event" -> eventsFrom(unit.kind(), said);
          default -> eventsOfAddress(unit, said);
        };
    return events.map(list -> new Command(unit.bus(), List.of(), "", list));
  }

  /** Which of the keys that give events counts: a signal's own before its kind's. */
  private static String saying(Section said) {
    List<String> keys = List.of("events", "first-event", "address");
    return keys.stream()
        .filter(said::ownSays)
        .findFirst()
        .or(() -> keys.stream().filter(said::says).findFirst())
        .orElse("");
  }

  private Optional<List<Long>> listedEvents(Kind kind, Section said) {
    Optional<YamlNode.Mapping> mapping = said.mapping("events");
    if (mapping.isEmpty()) {
      return Optional.empty();
    }
    Map<String, Long> listed = new HashMap<>();
    boolean fine = true;
    for (YamlNode.Entry entry : mapping.get().entries()) {
      Optional<EventId> event = event(said, entry.value(), "events");
      event.ifPresent(e -> listed.put(entry.key().text(), e.bits()));
      fine &= event.isPresent();
      if (!kind.isWholeSignal() && !kind.stateNames().contains(entry.key().text())) {
        complaints.unknownName(entry.key(), "display of this head", kind.stateNames());
        fine = false;
      }
    }
    List<Long> events = new ArrayList<>();
    for (State state : kind.states()) {
      Long event = listed.get(state.name());
      if (event != null) {
        events.add(event);
      } else if (fine) {
        complaints.missingKey(
            said.entry("events").orElseThrow().key().span(),
            "no event calls up \"" + state.name() + "\"",
            "add it to \"events\", or leave it out of what is shown.");
      }
    }
    return fine && events.size() == kind.states().size() ? Optional.of(events) : Optional.empty();
  }

  private Optional<List<Long>> eventsFrom(Kind kind, Section said) {
    YamlNode value = said.entry("first-event").orElseThrow().value();
    Optional<EventId> first = event(said, value, "first-event");
    if (first.isEmpty()) {
      return Optional.empty();
    }
    List<Long> events = new ArrayList<>();
    for (State state : kind.states()) {
      first.get().plus(state.number()).ifPresent(e -> events.add(e.bits()));
    }
    if (events.size() < kind.states().size()) {
      complaints.badValue(
          value.span(),
          "there are no events so far after " + first.get(),
          "choose a lower first event.");
      return Optional.empty();
    }
    return Optional.of(events);
  }

  private Optional<List<Long>> eventsOfAddress(UnitDesign unit, Section said) {
    if (!said.says("address") && !taken.containsKey(unit.bus().name())) {
      complaints.missingKey(
          said.place(),
          "nothing says which events call up this signal's aspects",
          "add \"address\" for the well-known events of an extended accessory, \"first-event\" for"
              + " a run of them, or \"events\" for one each.");
      return Optional.empty();
    }
    return addresses(unit, said, 1).map(list -> wellKnown(unit.kind(), list.get(0)));
  }

  private static List<Long> wellKnown(Kind kind, int address) {
    int binary = Accessory.binary(address, 1);
    return kind.states().stream()
        .map(s -> EventId.of(new Packet.ExtendedAccessory(binary, s.number())).bits())
        .toList();
  }

  private Optional<EventId> event(Section said, YamlNode node, String key) {
    Optional<YamlNode.Scalar> text = said.scalar(node, key, "an event id");
    Optional<EventId> event = text.flatMap(t -> EventId.parse(t.text()));
    if (text.isPresent() && event.isEmpty()) {
      complaints.badValue(
          text.get().span(),
          "\"" + text.get().text() + "\" is no event id",
          "write eight pairs of hex digits with dots between, such as 05.01.01.01.22.60.00.00.");
    }
    return event;
  }
}
