package dev.doublet.layout.read;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Mode;
import dev.doublet.layout.State;
import dev.doublet.rulebook.Aspect;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;

/** How designs are commanded: by what, on which bus, and which value calls up what. */
final class Commands {
  private static final Map<String, Mode> MODES = modes();
  private static final int MOST_BITS = 4;
  private static final int MOST_OUTPUTS = 256;

  private final Buses buses;
  private final Kind.Otherwise otherwise;
  private final Complaints complaints;

  /**
   * Takes what the layout says for all.
   *
   * @param otherwise what a value does that calls up nothing, where a signal does not say
   */
  Commands(Buses buses, Kind.Otherwise otherwise, Complaints complaints) {
    this.buses = buses;
    this.otherwise = otherwise;
    this.complaints = complaints;
  }

  /** A kind's part of being commanded. */
  record Answering(
      Bus bus,
      Mode mode,
      int addresses,
      boolean oneIsNormal,
      boolean lowFirst,
      boolean byName,
      List<Answer> answers,
      Kind.Otherwise otherwise) {

    /** The whole kind. */
    Kind kind(
        String form,
        List<String> heads,
        List<String> plates,
        int leds,
        List<State> states,
        int rest,
        boolean onApproach,
        List<Glow> glows) {
      return new Kind(
          form,
          heads,
          plates,
          leds,
          states,
          rest,
          mode,
          addresses,
          oneIsNormal,
          lowFirst,
          byName,
          answers,
          onApproach,
          glows,
          otherwise);
    }
  }

  /** The way of commanding, once it is clear that every key goes with it. */
  Optional<Mode> mode(Section said) {
    if (!said.says("by")) {
      complaints.missingKey(
          said.place(),
          "this does not say what it is commanded by",
          "add \"by: \" with one of: " + String.join(", ", MODES.keySet()) + ".");
      return Optional.empty();
    }
    Optional<Mode> mode = said.word("by", MODES);
    return mode.filter(m -> keysGoWith(m, said));
  }

  /** True when what a head says is commanded by DCC addresses. */
  boolean takesAddress(Section head) {
    return head.entry("by")
        .filter(e -> e.value() instanceof YamlNode.Scalar)
        .map(e -> MODES.get(((YamlNode.Scalar) e.value()).text()))
        .filter(mode -> Keys.ofCommands(mode).contains("address"))
        .isPresent();
  }

  /** The aspects that a signal without a list names in its commands, in order. */
  Optional<List<YamlNode.Scalar>> aspectsNamed(Section said, Mode mode) {
    if (mode == Mode.EVENT && said.says("events")) {
      return said.mapping("events")
          .map(m -> m.entries().stream().map(YamlNode.Entry::key).toList());
    }
    if (mode != Mode.BINARY_CODED && mode != Mode.ONE_PER_OUTPUT || !said.says("values")) {
      return Optional.empty();
    }
    return said.mapping("values").map(Commands::namedByValues);
  }

  private static List<YamlNode.Scalar> namedByValues(YamlNode.Mapping values) {
    Map<String, YamlNode.Scalar> names = new LinkedHashMap<>();
    values.entries().stream()
        .sorted(
            Comparator.comparingInt(e -> Section.whole(e.key().text()).orElse(Integer.MAX_VALUE)))
        .forEach(
            e -> {
              if (e.value() instanceof YamlNode.Scalar name && !name.isNothing()) {
                names.putIfAbsent(name.text(), name);
              }
            });
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
      Section said,
      Mode mode,
      List<Aspect> aspects,
      List<State> states,
      Map<String, Integer> places) {
    YamlNode.Scalar by = said.scalar("by", "a word").orElseThrow();
    Optional<Bus> bus = buses.choose(said, mode, by.span());
    boolean byName =
        mode == Mode.TOPIC
            && said.word("payload", new TreeMap<>(Map.of("name", true, "number", false)))
                .orElse(true);
    boolean needsNumbers =
        mode == Mode.ASPECT_NUMBER
            || mode == Mode.TOPIC && !byName
            || mode == Mode.EVENT && !said.says("events");
    boolean numbered = true;
    for (Aspect aspect : aspects) {
      if (needsNumbers && aspect.number() == Aspect.NO_NUMBER) {
        complaints.missingNumber(by, aspect.name(), aspect.span());
        numbered = false;
      }
    }
    if (bus.isEmpty() || !numbered) {
      return Optional.empty();
    }
    Kind.Otherwise unknown = said.word("otherwise", LayoutResolver.OTHERWISE).orElse(otherwise);
    if (mode != Mode.BINARY_CODED && mode != Mode.ONE_PER_OUTPUT) {
      List<Answer> answers = new ArrayList<>();
      for (int i = 0; i < states.size(); i++) {
        answers.add(new Answer(states.get(i).number(), i));
      }
      int addresses = mode == Mode.ASPECT_NUMBER ? 1 : 0;
      return Optional.of(
          new Answering(bus.get(), mode, addresses, true, true, byName, answers, unknown));
    }
    return byOutputs(said, mode, bus.get(), states, places, unknown);
  }

  private Optional<Answering> byOutputs(
      Section said,
      Mode mode,
      Bus bus,
      List<State> states,
      Map<String, Integer> places,
      Kind.Otherwise unknown) {
    Map<Integer, String> values = new TreeMap<>();
    if (said.says("values")) {
      values(said, mode, places).ifPresent(values::putAll);
    } else {
      places.forEach((name, place) -> values.put(place, name));
    }
    int highest = values.keySet().stream().mapToInt(v -> v).max().orElse(0);
    OptionalInt addresses =
        mode == Mode.BINARY_CODED ? bits(said, highest) : outputs(said, highest);
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
    boolean binary = mode == Mode.BINARY_CODED;
    boolean oneIsNormal =
        !binary
            || said.word("one-is", new TreeMap<>(Map.of("normal", true, "reverse", false)))
                .orElse(true);
    boolean lowFirst =
        !binary
            || said.word("low-bit", new TreeMap<>(Map.of("first", true, "last", false)))
                .orElse(true);
    return Optional.of(
        new Answering(
            bus, mode, addresses.getAsInt(), oneIsNormal, lowFirst, false, answers, unknown));
  }

  private Optional<Map<Integer, String>> values(
      Section said, Mode mode, Map<String, Integer> places) {
    Optional<YamlNode.Mapping> mapping = said.mapping("values");
    if (mapping.isEmpty()) {
      return Optional.empty();
    }
    int most = mode == Mode.BINARY_CODED ? (1 << MOST_BITS) - 1 : MOST_OUTPUTS - 1;
    Map<Integer, String> values = new TreeMap<>();
    for (YamlNode.Entry entry : mapping.get().entries()) {
      OptionalInt value = said.integer(entry.key(), "values", 0, most);
      Optional<YamlNode.Scalar> name = said.scalar(entry.value(), "values", "names of aspects");
      if (name.isPresent() && !places.containsKey(name.get().text())) {
        complaints.unknownName(
            name.get(), "aspect of this signal", places.keySet().stream().sorted().toList());
      } else if (value.isPresent() && name.isPresent()) {
        values.put(value.getAsInt(), name.get().text());
      }
    }
    return Optional.of(values);
  }

  private OptionalInt bits(Section said, int highest) {
    OptionalInt listed = listed(said);
    OptionalInt bits = said.integer("bits", 1, MOST_BITS);
    if (listed.isPresent()) {
      if (bits.isPresent() && bits.getAsInt() != listed.getAsInt()) {
        complaints.badValue(
            said.entry("bits").orElseThrow().value().span(),
            Complaints.count(bits.getAsInt(), "bit")
                + " cannot travel on "
                + Complaints.count(listed.getAsInt(), "address"),
            "list one address for each bit, or leave \"bits\" out.");
        return OptionalInt.empty();
      }
      return listed;
    }
    int needed = Math.max(1, 32 - Integer.numberOfLeadingZeros(highest));
    if (bits.isEmpty() && needed > MOST_BITS) {
      complaints.badValue(
          said.entry("by").orElseThrow().value().span(),
          "binary-coded carries 16 aspects at most, and this signal may show " + (highest + 1),
          "list those it needs with \"aspects\", or command it by aspect-number.");
      return OptionalInt.empty();
    }
    return OptionalInt.of(bits.orElse(needed));
  }

  private OptionalInt outputs(Section said, int highest) {
    OptionalInt listed = listed(said);
    return listed.isPresent() ? listed : OptionalInt.of(highest / 2 + 1);
  }

  /** How many addresses are listed; empty when none is, or a single one. */
  private OptionalInt listed(Section said) {
    if (said.ownSays("address") || !said.says("addresses")) {
      return OptionalInt.empty();
    }
    return said.items("addresses", "a list of addresses")
        .filter(items -> !items.isEmpty())
        .map(items -> OptionalInt.of(items.size()))
        .orElse(OptionalInt.empty());
  }

  private boolean keysGoWith(Mode mode, Section said) {
    boolean all = true;
    List<String> going = Keys.ofCommands(mode);
    for (String key : Keys.ofCommands()) {
      boolean counts = said.ownSays(key) || said.says(key) && !said.ownSays("by");
      if (counts && !going.contains(key)) {
        complaints.commandKeys(
            said.entry(key).orElseThrow().key().span(),
            "\"" + key + "\" does not go with by: " + mode.word(),
            "delete it; by: "
                + mode.word()
                + " goes with "
                + String.join(", ", going.subList(1, going.size()))
                + ".");
        all = false;
      }
    }
    return all
        && oneOf(said, List.of("address", "addresses"))
        && oneOf(said, List.of("address", "first-event", "events"));
  }

  /** Refuses two keys of one section that both say where it listens. */
  private boolean oneOf(Section said, List<String> keys) {
    List<String> own = keys.stream().filter(said::ownSays).toList();
    if (own.size() < 2) {
      return true;
    }
    Span second = said.entry(own.get(1)).orElseThrow().key().span();
    complaints.commandKeys(
        second,
        "\"" + own.get(0) + "\" and \"" + own.get(1) + "\" both say where it listens",
        "delete one of the two.");
    return false;
  }

  private static Map<String, Mode> modes() {
    Map<String, Mode> modes = new LinkedHashMap<>();
    for (Mode mode : Mode.values()) {
      modes.put(mode.word(), mode);
    }
    return Collections.unmodifiableMap(modes);
  }
}
