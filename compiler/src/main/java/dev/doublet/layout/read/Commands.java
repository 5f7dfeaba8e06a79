package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.State;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Mention;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;

/**
 * How designs are commanded: by what, on which bus, and which value calls up what. It is long
 * because all ways to command a signal are read here, each with the keys that go with it.
 */
final class Commands {
  private static final int MOST_BITS = 4;

  /** Milliseconds: the packets of one number come up to 50 ms apart. */
  private static final int SHORTEST_SETTLE = 50;

  /** What commands a unit, as a layout says it. */
  enum By {
    ASPECT_NUMBER(Way.AspectNumber.WORD, Speaks.DCC),
    BINARY_CODED(Way.BinaryCoded.WORD, Speaks.DCC),
    ONE_PER_OUTPUT(Way.OnePerOutput.WORD, Speaks.DCC),
    TOPIC(Way.Topic.WORD, Speaks.MQTT),
    EVENT(Way.Event.WORD, Speaks.OPENLCB);

    private final String word;
    private final Speaks speaks;

    By(String word, Speaks speaks) {
      this.word = word;
      this.speaks = speaks;
    }

    String word() {
      return word;
    }

    /** What a bus must speak to carry its commands. */
    Speaks speaks() {
      return speaks;
    }

    /** True when a signal says which values call up what; else they are the aspects' numbers. */
    boolean hasOwnValues() {
      return switch (this) {
        case BINARY_CODED, ONE_PER_OUTPUT -> true;
        case ASPECT_NUMBER, TOPIC, EVENT -> false;
      };
    }

    /** The keys that go with it. */
    List<Key<?>> keys() {
      return switch (this) {
        case ASPECT_NUMBER -> List.of(Keys.BY, Keys.BUS, Keys.ADDRESS, Keys.VALUES, Keys.OTHERWISE);
        case BINARY_CODED ->
            List.of(
                Keys.BY,
                Keys.BUS,
                Keys.ADDRESS,
                Keys.ADDRESSES,
                Keys.BITS,
                Keys.ONE_IS,
                Keys.LOW_BIT,
                Keys.SETTLE,
                Keys.VALUES,
                Keys.OTHERWISE);
        case ONE_PER_OUTPUT ->
            List.of(Keys.BY, Keys.BUS, Keys.ADDRESS, Keys.ADDRESSES, Keys.VALUES, Keys.OTHERWISE);
        case TOPIC ->
            List.of(Keys.BY, Keys.BUS, Keys.TOPIC, Keys.PAYLOAD, Keys.VALUES, Keys.OTHERWISE);
        case EVENT ->
            List.of(
                Keys.BY,
                Keys.BUS,
                Keys.ADDRESS,
                Keys.FIRST_EVENT,
                Keys.EVENTS,
                Keys.VALUES,
                Keys.OTHERWISE);
      };
    }
  }

  private final Buses buses;
  private final BookNames names;
  private final Kind.Otherwise otherwise;
  private final Rulebook book;
  private final Complaints complaints;

  /**
   * Takes what the layout says for all.
   *
   * @param otherwise what a value does that calls up nothing, where a signal does not say
   */
  Commands(
      Buses buses,
      BookNames names,
      Kind.Otherwise otherwise,
      Rulebook book,
      Complaints complaints) {
    this.buses = buses;
    this.names = names;
    this.otherwise = otherwise;
    this.book = book;
    this.complaints = complaints;
  }

  /**
   * A kind's part of being commanded.
   *
   * @param unsaid what it did not say of its values, and follows from elsewhere
   */
  record Answering(
      Bus bus,
      Way way,
      List<Answer> answers,
      Kind.Otherwise otherwise,
      Optional<Pins.Unsaid> unsaid) {

    /** The whole kind. */
    Kind kind(
        String form,
        List<String> heads,
        List<String> plates,
        int leds,
        List<State> states,
        int rest,
        boolean onApproach,
        List<Glow> glows,
        List<Feed> feeds) {
      return new Kind(
          form,
          heads,
          plates,
          leds,
          states,
          rest,
          way,
          answers,
          onApproach,
          glows,
          feeds,
          otherwise);
    }
  }

  /** The way of commanding, once it is clear that every key goes with it. */
  Optional<By> by(Section said) {
    if (!said.maySay(Keys.BY)) {
      complaints.missingKey(
          said.span(),
          "this does not say what it is commanded by",
          "add \"by: \" with {ways}.",
          Datum.of("ways", Keys.BY.takes().words()));
      return Optional.empty();
    }
    return said.read(Keys.BY).filter(m -> keysGoWith(m, said));
  }

  /** True when what a head says is commanded by DCC addresses. */
  boolean takesAddress(Section head) {
    return head.read(Keys.BY).filter(by -> by.keys().contains(Keys.ADDRESS)).isPresent();
  }

  /** The aspects that a signal without a list names in its commands, in order. */
  Optional<List<YamlNode.Scalar>> aspectsNamed(Section said, By by) {
    if (by == By.EVENT && said.says(Keys.EVENTS)) {
      return said.read(Keys.EVENTS).map(all -> all.stream().map(Takes.Named::name).toList());
    }
    return valuesOf(said, by).map(Commands::namedByValues);
  }

  private static List<YamlNode.Scalar> namedByValues(List<Takes.Named<YamlNode.Scalar>> values) {
    Map<String, YamlNode.Scalar> names = new LinkedHashMap<>();
    values.stream()
        .sorted(
            Comparator.comparingInt(
                v -> Takes.Whole.digits(v.name().text()).orElse(Integer.MAX_VALUE)))
        .flatMap(v -> v.value().stream())
        .forEach(name -> names.putIfAbsent(name.text(), name));
    return List.copyOf(names.values());
  }

  /**
   * What each value calls up.
   *
   * @param aspects for a whole signal, all it may show; else empty
   * @param states what its heads can show of them
   * @param places the place of every aspect or display in its list, by name
   */
  Optional<Answering> answering(
      Section said, By by, List<Aspect> aspects, List<State> states, Map<String, Integer> places) {
    Span place = said.at(Keys.BY);
    Optional<Bus> bus = buses.choose(said, by, place);
    boolean byName = by == By.TOPIC && said.read(Keys.PAYLOAD).orElse(true);
    boolean needsNumbers =
        by == By.ASPECT_NUMBER
            || by == By.TOPIC && !byName
            || by == By.EVENT && !said.says(Keys.EVENTS);
    List<Aspect> numberless = aspects.stream().filter(a -> a.number() == Aspect.NO_NUMBER).toList();
    if (needsNumbers && !numberless.isEmpty()) {
      boolean unread =
          numberless.stream().anyMatch(a -> names.mayDeclare(Mention.Kind.ASPECT, a.name()));
      if (unread) {
        complaints.lose();
      } else {
        complaints.missingNumbers(place, numberless, AspectNumbers.of(book, numberless));
      }
      return Optional.empty();
    }
    if (bus.isEmpty()) {
      return Optional.empty();
    }
    Kind.Otherwise unknown = said.read(Keys.OTHERWISE).orElse(otherwise);
    if (!by.hasOwnValues()) {
      List<Answer> answers = new ArrayList<>();
      for (int i = 0; i < states.size(); i++) {
        answers.add(new Answer(states.get(i).number(), i));
      }
      Way way =
          switch (by) {
            case TOPIC -> new Way.Topic(byName);
            case EVENT -> new Way.Event();
            default -> new Way.AspectNumber();
          };
      if (!agrees(said, by, answers, states)) {
        return Optional.empty();
      }
      return Optional.of(
          new Answering(bus.get(), way, answers, unknown, unsaid(said, by, answers, states)));
    }
    return byOutputs(said, by, bus.get(), states, places, unknown);
  }

  private Optional<Answering> byOutputs(
      Section said,
      By by,
      Bus bus,
      List<State> states,
      Map<String, Integer> places,
      Kind.Otherwise unknown) {
    Map<Integer, String> values = new TreeMap<>();
    if (said.says(Keys.VALUES)) {
      values(said, by, places, states).ifPresent(values::putAll);
    } else {
      places.forEach((name, place) -> values.put(place, name));
    }
    int highest = values.keySet().stream().mapToInt(v -> v).max().orElse(0);
    OptionalInt addresses = by == By.BINARY_CODED ? bits(said, highest) : outputs(said, highest);
    if (addresses.isEmpty()) {
      return Optional.empty();
    }
    List<Answer> answers = new ArrayList<>();
    for (int i = 0; i < states.size(); i++) {
      for (Map.Entry<Integer, String> value : values.entrySet()) {
        if (value.getValue().equals(states.get(i).name())) {
          answers.add(new Answer(value.getKey(), i));
        }
      }
    }
    Way way =
        by == By.BINARY_CODED
            ? new Way.BinaryCoded(
                addresses.getAsInt(),
                said.read(Keys.ONE_IS).orElse(true),
                said.read(Keys.LOW_BIT).orElse(true),
                addresses.getAsInt() > 1 ? settle(said) : 0)
            : new Way.OnePerOutput(addresses.getAsInt());
    Optional<Pins.Unsaid> unsaid =
        unsaid(said, by, answers, states).map(u -> reaching(u, said, way));
    return Optional.of(new Answering(bus, way, answers, unknown, unsaid));
  }

  /** What values call up though nobody says so. */
  private static Optional<Pins.Unsaid> unsaid(
      Section said, By by, List<Answer> answers, List<State> states) {
    if (valuesOf(said, by).isPresent() || !isNumbered(said, by)) {
      return Optional.empty();
    }
    Map<Integer, String> values = new TreeMap<>();
    answers.forEach(a -> values.put(a.value(), states.get(a.state()).name()));
    return Optional.of(new Pins.Unsaid(values, false));
  }

  /**
   * The same, with what else must be said for as many addresses: an aspect that the heads cannot
   * show has a value, but calls up nothing.
   */
  private static Pins.Unsaid reaching(Pins.Unsaid unsaid, Section said, Way way) {
    int highest = unsaid.values().keySet().stream().mapToInt(v -> v).max().orElse(0);
    boolean coded = way instanceof Way.BinaryCoded;
    int needed = coded ? bitsFor(highest) : highest / 2 + 1;
    boolean counted = coded && said.says(Keys.BITS) || listed(said).isPresent();
    boolean implied = counted || needed == way.addresses();
    return new Pins.Unsaid(unsaid.values(), !implied);
  }

  /** True when what is sent is a number, and not a name or an event given for each aspect. */
  private static boolean isNumbered(Section said, By by) {
    return switch (by) {
      case TOPIC -> !said.read(Keys.PAYLOAD).orElse(true);
      case EVENT -> !said.says(Keys.EVENTS);
      default -> true;
    };
  }

  /** The values that count for a way of commanding: a kind's go with the way that it says. */
  private static Optional<List<Takes.Named<YamlNode.Scalar>>> valuesOf(Section said, By by) {
    boolean counts = by.hasOwnValues() || said.ownSays(Keys.VALUES) || !said.ownSays(Keys.BY);
    return counts && isNumbered(said, by) ? said.read(Keys.VALUES) : Optional.empty();
  }

  /** True when values that are said are the numbers that the aspects have. */
  private boolean agrees(Section said, By by, List<Answer> answers, List<State> states) {
    boolean agrees = true;
    for (Takes.Named<YamlNode.Scalar> named : valuesOf(said, by).orElse(List.of())) {
      int value = Takes.Whole.digits(named.name().text()).orElseThrow();
      String name = named.value().map(YamlNode.Scalar::text).orElse("");
      List<String> numbers = ofFamily(states, name);
      String first = numbers.isEmpty() ? name : numbers.get(0);
      Optional<State> state = states.stream().filter(s -> s.name().equals(first)).findFirst();
      if (state.isPresent() && state.get().number() != value) {
        complaints.otherNumber(named.name(), state.get());
        agrees = false;
      } else if (state.isEmpty() && named.value().isPresent() && !hasAspects(states)) {
        complaints.unknownName(
            named.value().get(), "display of this head", states.stream().map(State::name).toList());
        agrees = false;
      }
    }
    return agrees;
  }

  /** The names of the states that are an aspect of many numbers, where a name is one's. */
  private static List<String> ofFamily(List<State> states, String name) {
    return states.stream()
        .filter(s -> s.aspect().filter(a -> a.family().equals(name)).isPresent())
        .map(State::name)
        .filter(n -> !n.equals(name))
        .toList();
  }

  private static boolean hasAspects(List<State> states) {
    return states.stream().allMatch(s -> s.aspect().isPresent());
  }

  private int settle(Section said) {
    int settle = said.read(Keys.SETTLE).orElse(Way.BinaryCoded.USUAL_SETTLE);
    if (settle > 0 && settle < SHORTEST_SETTLE) {
      complaints.wrong(
          "out-of-range",
          said.at(Keys.SETTLE),
          "\"{key}\" cannot be {value}: the packets of one command come farther apart",
          "write a whole number from {least} to {most}, or 0 for at once.",
          Datum.of("key", Keys.SETTLE.name()),
          Datum.of("value", settle),
          Datum.of("least", SHORTEST_SETTLE),
          Datum.of("most", Way.BinaryCoded.LONGEST_SETTLE));
    }
    return settle;
  }

  private Optional<Map<Integer, String>> values(
      Section said, By by, Map<String, Integer> places, List<State> states) {
    Optional<List<Takes.Named<YamlNode.Scalar>>> listed = said.read(Keys.VALUES);
    if (listed.isEmpty()) {
      return Optional.empty();
    }
    int most = by == By.BINARY_CODED ? (1 << MOST_BITS) - 1 : Integer.MAX_VALUE;
    Map<Integer, String> values = new TreeMap<>();
    for (Takes.Named<YamlNode.Scalar> named : listed.get()) {
      if (named.value().isEmpty()) {
        continue;
      }
      int value = Takes.Whole.digits(named.name().text()).orElseThrow();
      YamlNode.Scalar aspect = named.value().get();
      List<String> numbers = ofFamily(states, aspect.text());
      if (value > most - Math.max(0, numbers.size() - 1)) {
        complaints.wrong(
            "out-of-range",
            named.name().span(),
            "\"{key}\" cannot be {value}"
                + (numbers.size() > 1 ? " up to {last}" : "")
                + ", as {by} carries {least} to {most}",
            "write values from {least} to {most}.",
            Datum.of("key", Keys.VALUES.name()),
            Datum.of("value", value),
            Datum.of("last", value + Math.max(0, numbers.size() - 1)),
            Datum.of("by", by.word()),
            Datum.of("least", 0),
            Datum.of("most", most));
      } else if (numbers.isEmpty() && !places.containsKey(aspect.text())) {
        complaints.unknownName(
            aspect, "aspect of this signal", places.keySet().stream().sorted().toList());
      } else {
        enter(named.name(), value, numbers.isEmpty() ? List.of(aspect.text()) : numbers, values);
      }
    }
    return Optional.of(values);
  }

  /** Notes what some values call up, the first said and one for each number of an aspect. */
  private void enter(
      YamlNode.Scalar said, int first, List<String> names, Map<Integer, String> values) {
    for (int i = 0; i < names.size(); i++) {
      String before = values.putIfAbsent(first + i, names.get(i));
      if (before != null) {
        complaints.wrong(
            "contradiction",
            said.span(),
            "value {value} calls up both \"{aspects}\"",
            "an aspect of many numbers takes a value for each: begin one of the two elsewhere.",
            Datum.of("value", first + i),
            Datum.of("aspects", List.of(before, names.get(i))));
        return;
      }
    }
  }

  private OptionalInt bits(Section said, int highest) {
    OptionalInt listed = listed(said);
    Optional<Integer> bits = said.read(Keys.BITS);
    if (listed.isPresent()) {
      if (bits.isPresent() && bits.get() != listed.getAsInt()) {
        complaints.wrong(
            "wrong-count",
            said.at(Keys.BITS),
            "{bits} cannot travel on {addresses}",
            "list one address for each bit, or leave \"bits\" out.",
            Datum.count("bits", bits.get(), "bit"),
            Datum.count("addresses", listed.getAsInt(), "address"));
        return OptionalInt.empty();
      }
      return listed;
    }
    int needed = bitsFor(highest);
    if (bits.isEmpty() && needed > MOST_BITS) {
      complaints.wrong(
          "wrong-count",
          said.at(Keys.BY),
          "binary-coded carries 16 aspects at most, and this signal may show {aspects}",
          "list those it needs with \"aspects\", or command it by aspect-number.",
          Datum.of("aspects", (highest + 1)));
      return OptionalInt.empty();
    }
    return OptionalInt.of(bits.orElse(needed));
  }

  private static int bitsFor(int highest) {
    return Math.max(1, Integer.SIZE - Integer.numberOfLeadingZeros(highest));
  }

  private OptionalInt outputs(Section said, int highest) {
    OptionalInt listed = listed(said);
    return listed.isPresent() ? listed : OptionalInt.of(highest / 2 + 1);
  }

  /** How many addresses are listed; empty when none is, or a single one. */
  private static OptionalInt listed(Section said) {
    if (said.ownSays(Keys.ADDRESS)) {
      return OptionalInt.empty();
    }
    return said.read(Keys.ADDRESSES).stream().mapToInt(List::size).findFirst();
  }

  private boolean keysGoWith(By by, Section said) {
    boolean all = true;
    List<Key<?>> going = by.keys();
    for (Key<?> key : Keys.ofCommands()) {
      boolean counts = said.ownSays(key) || said.says(key) && !said.ownSays(Keys.BY);
      if (counts && !going.contains(key)) {
        if (said.read(key).isPresent()) {
          complaints.commandKeys(
              said.entry(key).orElseThrow().key().span(),
              "\"{key}\" does not go with by: {by}",
              "delete it; by: {by} goes with {keys}.",
              Datum.of("key", key.name()),
              Datum.of("by", by.word()),
              Datum.of("keys", going.stream().skip(1).map(k -> k.name()).toList()));
        }
        all = false;
      }
    }
    return all
        && oneOf(said, List.of(Keys.ADDRESS, Keys.ADDRESSES))
        && oneOf(said, List.of(Keys.ADDRESS, Keys.FIRST_EVENT, Keys.EVENTS))
        && numbersAreSent(by, said);
  }

  /** Refuses values where names are sent, or an event is given for each aspect. */
  private boolean numbersAreSent(By by, Section said) {
    if (!said.ownSays(Keys.VALUES) || isNumbered(said, by)) {
      return true;
    }
    complaints.commandKeys(
        said.entry(Keys.VALUES).orElseThrow().key().span(),
        "\"{key}\" does not go with " + (by == By.TOPIC ? "payload: name" : "\"{other-key}\""),
        by == By.TOPIC ? "delete it, or say payload: number." : "delete one of the two.",
        Datum.of("key", Keys.VALUES.name()),
        Datum.of("other-key", by == By.TOPIC ? Keys.PAYLOAD.name() : Keys.EVENTS.name()));
    return false;
  }

  /** Refuses two keys of one section that both say where it listens. */
  private boolean oneOf(Section said, List<Key<?>> keys) {
    List<Key<?>> own = keys.stream().filter(said::ownSays).toList();
    if (own.size() < 2) {
      return true;
    }
    Span second = said.entry(own.get(1)).orElseThrow().key().span();
    complaints.commandKeys(
        second,
        "\"{key}\" and \"{other-key}\" both say where it listens",
        "delete one of the two.",
        Datum.of("key", own.get(0).name()),
        Datum.of("other-key", own.get(1).name()));
    return false;
  }
}
