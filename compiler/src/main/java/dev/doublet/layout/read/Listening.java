package dev.doublet.layout.read;

import dev.doublet.bus.Accessory;
import dev.doublet.bus.EventId;
import dev.doublet.bus.Packet;
import dev.doublet.bus.TopicName;
import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Command;
import dev.doublet.layout.Kind;
import dev.doublet.layout.State;
import dev.doublet.layout.read.Design.UnitDesign;
import dev.doublet.rulebook.Aspect;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Where units listen: what they say, or the next free address of their bus. Units must be asked for
 * in the order of the file.
 */
final class Listening {
  private final Map<String, Taken> taken = new HashMap<>();
  private final Pins pins;
  private final Complaints complaints;
  private boolean lost;

  /** Starts with every address free. */
  Listening(Pins pins, Complaints complaints) {
    this.pins = pins;
    this.complaints = complaints;
  }

  /**
   * Where the address of a unit may be said.
   *
   * @param section its signal
   * @param given what its signal gives the heads that say none; empty when it gives none
   * @param listed true when several must be listed one by one
   * @param signals how many signals take addresses from here on; 0 for one that goes on from the
   *     first of them
   */
  record Sayer(Section section, Optional<Given> given, boolean listed, int signals) {}

  /**
   * Addresses for the heads of one signal, top to bottom.
   *
   * @param left those that no head has taken
   * @param span where they are listed
   */
  record Given(Deque<Integer> left, Span span) {}

  /** The addresses of one bus. */
  private static final class Taken {
    private final BitSet addresses = new BitSet();
    private int last;

    /** The last address that the file gives. */
    private Optional<Span> written = Optional.empty();

    /** False from a signal with a mistake in its address to the next that says its own. */
    private boolean known = true;

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
      known = true;
    }
  }

  /** A signal was not read: nobody knows which addresses it takes. */
  void lose() {
    taken.values().forEach(bus -> bus.known = false);
    lost = true;
  }

  /**
   * Where a unit listens.
   *
   * @param said what the signal or head says, based on its kind
   * @param topicName what the unit's topic ends in where it says none
   * @param sayer where its address may be said
   */
  Optional<Command> of(UnitDesign unit, Section said, String topicName, Sayer sayer) {
    return switch (unit.bus().speaks()) {
      case MQTT -> topic(unit, said, topicName);
      case OPENLCB -> events(unit, said, sayer);
      case DCC ->
          addresses(unit, said, unit.kind().way().addresses(), sayer)
              .map(list -> new Command(unit.bus(), list, "", List.of()));
    };
  }

  private Optional<List<Integer>> addresses(UnitDesign unit, Section said, int count, Sayer sayer) {
    Taken bus = taken(unit.bus());
    if (said.says(Keys.ADDRESSES) && !said.ownSays(Keys.ADDRESS)) {
      Optional<List<Integer>> listed = said.read(Keys.ADDRESSES);
      bus.known &= listed.isPresent();
      listed.orElse(List.of()).forEach(address -> bus.take(address, 1));
      return listed.filter(list -> list.size() == count);
    }
    boolean automatic = !said.maySay(Keys.ADDRESS);
    if (automatic && sayer.given().isPresent()) {
      return given(unit, sayer.given().get(), count, bus);
    }
    if (automatic && pins.isPinned()) {
      if (sayer.signals() > 0) {
        pins.waiting(sayer.section(), unit.bus(), count * sayer.signals(), sayer.listed());
      }
      return Optional.empty();
    }
    int all = count * Math.max(1, sayer.signals());
    Optional<Integer> first =
        said.maySay(Keys.ADDRESS)
            ? said.read(Keys.ADDRESS)
            : Optional.of(bus.next(all)).filter(next -> bus.known);
    if (first.isEmpty()) {
      bus.known = false;
      return Optional.empty();
    }
    int last = first.get() + all - 1;
    boolean written = said.says(Keys.ADDRESS);
    if (written) {
      bus.written = Optional.of(said.at(Keys.ADDRESS));
    }
    if (last > Accessory.HIGHEST) {
      complaints.addressesRunOut(
          bus.written.orElse(said.span()),
          written ? said.at(Keys.ADDRESS) : said.span(),
          unit.bus().name(),
          last);
      bus.known = false;
      return Optional.empty();
    }
    bus.take(first.get(), count);
    List<Integer> run = IntStream.rangeClosed(first.get(), last).boxed().toList();
    if (automatic && sayer.signals() > 0) {
      pins.addresses(sayer.section(), run, sayer.listed());
    }
    return Optional.of(run.subList(0, count));
  }

  private Optional<List<Integer>> given(UnitDesign unit, Given given, int count, Taken bus) {
    if (given.left().size() < count) {
      complaints.addressesLack(given.span(), unit.place());
      given.left().clear();
      return Optional.empty();
    }
    List<Integer> taken = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      taken.add(given.left().remove());
    }
    taken.forEach(address -> bus.take(address, 1));
    return Optional.of(taken);
  }

  /** The addresses after the last one that a bus has taken; the first free ones where it ends. */
  List<Integer> afterTheLast(Bus bus, int count) {
    Taken all = taken(bus);
    int first = Math.max(all.addresses.length(), 1);
    if (first + count - 1 > Accessory.HIGHEST) {
      all.last = 0;
      first = all.next(count);
    }
    all.take(first, count);
    return IntStream.range(first, first + count).boxed().toList();
  }

  private Taken taken(Bus bus) {
    return taken.computeIfAbsent(
        bus.name(),
        name -> {
          Taken fresh = new Taken();
          fresh.known = !lost;
          return fresh;
        });
  }

  private Optional<Command> topic(UnitDesign unit, Section said, String name) {
    Optional<YamlNode.Scalar> own = said.read(Keys.TOPIC);
    if (own.isEmpty() && said.says(Keys.TOPIC)) {
      return Optional.empty();
    }
    String before = unit.bus().topics();
    String topic =
        own.map(YamlNode.Scalar::text).orElse(before.isEmpty() ? name : before + "/" + name);
    Optional<String> fault = TopicName.fault(topic);
    if (fault.isPresent()) {
      complaints.wrong(
          "malformed-value",
          own.map(YamlNode.Scalar::span).orElse(said.span()),
          "\"{topic}\" is no topic: {reason}",
          own.isPresent()
              ? "write levels with \"/\" between, such as \"layout/signals/W1\"."
              : "say its \"topic\", or rename the signal.",
          Datum.of("topic", topic),
          Datum.of("reason", fault.get()));
      return Optional.empty();
    }
    return Optional.of(new Command(unit.bus(), List.of(), topic, List.of()));
  }

  private Optional<Command> events(UnitDesign unit, Section said, Sayer sayer) {
    Optional<List<Long>> events =
        switch (saying(said)) {
          case "events" -> listedEvents(unit.kind(), said);
          case "first-event" -> eventsFrom(unit.kind(), said);
          default -> eventsOfAddress(unit, said, sayer);
        };
    return events.map(list -> new Command(unit.bus(), List.of(), "", list));
  }

  /** Which of the keys that give events counts: a signal's own before its kind's. */
  private static String saying(Section said) {
    List<Key<?>> keys = List.of(Keys.EVENTS, Keys.FIRST_EVENT, Keys.ADDRESS);
    return keys.stream()
        .filter(said::ownSays)
        .findFirst()
        .or(() -> keys.stream().filter(said::says).findFirst())
        .map(Key::name)
        .orElse("");
  }

  private Optional<List<Long>> listedEvents(Kind kind, Section said) {
    Optional<List<Takes.Named<YamlNode.Scalar>>> all = said.read(Keys.EVENTS);
    if (all.isEmpty()) {
      return Optional.empty();
    }
    Map<String, Long> listed = new HashMap<>();
    boolean fine = true;
    for (Takes.Named<YamlNode.Scalar> named : all.get()) {
      String name = named.name().text();
      named.value().ifPresent(e -> listed.put(name, event(e).bits()));
      fine &= named.value().isPresent();
      if (!kind.isWholeSignal() && !kind.stateNames().contains(name)) {
        complaints.unknownName(named.name(), "display of this head", kind.stateNames());
        fine = false;
      }
    }
    List<Long> events = new ArrayList<>();
    for (State state : kind.states()) {
      Long event = listed.getOrDefault(state.name(), ofFamily(listed, kind, state));
      if (event != null) {
        events.add(event);
      } else if (fine) {
        complaints.missingKey(
            said.entry(Keys.EVENTS).orElseThrow().key().span(),
            "no event calls up \"{state}\"",
            "add it to \"events\", or leave it out of what is shown.",
            Datum.of("state", state.name()));
      }
    }
    return fine && events.size() == kind.states().size() ? Optional.of(events) : Optional.empty();
  }

  /** The event of a number that a head shows: those of its aspect follow the one that is listed. */
  private static Long ofFamily(Map<String, Long> listed, Kind kind, State state) {
    String family = state.aspect().map(Aspect::family).orElse(state.name());
    Long first = listed.get(family);
    return first == null ? null : Long.valueOf(first + kind.ofFamily(family).indexOf(state.name()));
  }

  private Optional<List<Long>> eventsFrom(Kind kind, Section said) {
    Optional<EventId> first = said.read(Keys.FIRST_EVENT).map(Listening::event);
    if (first.isEmpty()) {
      return Optional.empty();
    }
    List<Long> events = new ArrayList<>();
    for (State state : kind.states()) {
      first.get().plus(state.number()).ifPresent(e -> events.add(e.bits()));
    }
    if (events.size() < kind.states().size()) {
      complaints.wrong(
          "out-of-range",
          said.at(Keys.FIRST_EVENT),
          "there are no events so far after {event}",
          "choose a lower first event.",
          Datum.of("event", first.get().toString()));
      return Optional.empty();
    }
    return Optional.of(events);
  }

  private Optional<List<Long>> eventsOfAddress(UnitDesign unit, Section said, Sayer sayer) {
    if (sayer.given().isEmpty()
        && !said.maySay(Keys.ADDRESS)
        && !taken.containsKey(unit.bus().name())) {
      complaints.missingKey(
          said.span(),
          "nothing says which events call up this signal's aspects",
          "add \"address\" for the well-known events of an extended accessory, \"first-event\" for"
              + " a run of them, or \"events\" for one each.");
      return Optional.empty();
    }
    return addresses(unit, said, 1, sayer).map(list -> wellKnown(unit.kind(), list.get(0)));
  }

  private static List<Long> wellKnown(Kind kind, int address) {
    int binary = Accessory.binary(address, 1);
    return kind.states().stream()
        .map(s -> EventId.of(new Packet.ExtendedAccessory(binary, s.number())).bits())
        .toList();
  }

  private static EventId event(YamlNode.Scalar text) {
    return EventId.parse(text.text()).orElseThrow();
  }
}
