package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Chip;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Mast;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Size;
import dev.doublet.layout.State;
import dev.doublet.layout.read.Commands.By;
import dev.doublet.layout.read.Design.UnitDesign;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Works out designs, each distinct one once; equal builds and kinds become the same objects. It is
 * long because all that a signal can say of how it is built is read here.
 */
final class Designs {
  /** Keys that tell nothing of a design. */
  private static final Set<Key<?>> NEVER_DECIDE =
      Set.of(
          Keys.NAME,
          Keys.KIND_OF,
          Keys.LED,
          Keys.METRES_TO,
          Keys.LEAD,
          Keys.FIXED,
          Keys.NOTE,
          Keys.SERVOS,
          Keys.PULSES,
          Keys.TRAVEL,
          Keys.MOTORS,
          Keys.COIL_TIME);

  /** Keys that decide nothing but by being said. */
  private static final Set<Key<?>> DECIDE_BY_BEING_SAID =
      Set.of(Keys.ADDRESS, Keys.TOPIC, Keys.FIRST_EVENT);

  /** Keys of which no design needs the value. */
  private static final Set<Key<?>> TELL_NOTHING =
      Stream.of(NEVER_DECIDE, DECIDE_BY_BEING_SAID)
          .flatMap(Set::stream)
          .collect(Collectors.toUnmodifiableSet());

  private final Rulebook book;
  private final BookNames names;
  private final Sizes sizes;
  private final HeadDisplays displays;
  private final Declared<Chip> chips;
  private final Commands commands;
  private final Complaints complaints;
  private final Map<DesignKey, Optional<Design>> designs = new HashMap<>();
  private final Map<List<Object>, List<Aspect>> defaultAspects = new HashMap<>();
  private final Map<Signal.Build, Signal.Build> builds = new HashMap<>();
  private final Map<Kind, Kind> kinds = new HashMap<>();

  /**
   * Starts with no design known.
   *
   * @param sizes of signals that do not say
   * @param chips the kinds of chip that signals may have
   */
  Designs(
      Rulebook book,
      BookNames names,
      Sizes sizes,
      Declared<Chip> chips,
      Commands commands,
      Complaints complaints) {
    this.book = book;
    this.names = names;
    this.displays = new HeadDisplays(book, names, complaints);
    this.sizes = sizes;
    this.chips = chips;
    this.commands = commands;
    this.complaints = complaints;
  }

  /** What decides a design: what is said by a kind, and what a signal says differently. */
  private record DesignKey(Section kind, String differences) {}

  /**
   * The design of a signal.
   *
   * @param said what the signal says, based on its kind
   * @param kind what its kind says; the same object for signals of one kind
   * @return empty when it has mistakes, which have been complained of
   */
  Optional<Design> of(Section said, Section kind) {
    StringBuilder differences = new StringBuilder();
    for (YamlNode.Entry entry : said.own()) {
      String key = entry.key().text();
      if (!hasName(NEVER_DECIDE, key)) {
        boolean valueDecides = !hasName(DECIDE_BY_BEING_SAID, key);
        differences.append(key).append('=');
        differences.append(valueDecides ? entry.value().span().text() : "").append('\n');
      }
    }
    DesignKey asked = new DesignKey(kind, differences.toString());
    Optional<Design> known = designs.get(asked);
    if (known == null) {
      known = complaints.lossless(() -> workOut(said)).filter(d -> said.isReadBut(TELL_NOTHING));
      designs.put(asked, known);
    }
    return known;
  }

  private Optional<Design> workOut(Section said) {
    if (!said.says(Keys.FORM)) {
      lacksForm(said);
      return Optional.empty();
    }
    Optional<Form> form = form(said);
    List<String> plates = plates(said);
    Optional<List<YamlNode>> listed = said.read(Keys.HEADS);
    if (!said.maySay(Keys.HEADS)) {
      complaints.missingKey(
          said.span(),
          "this signal does not say what heads it has",
          "add \"{write}\", one for each place of its form.",
          Datum.of("write", "heads: [" + String.join(", ", headNames()) + "]"));
    }
    List<Section> alone = new ArrayList<>();
    List<HeadType> heads = heads(listed.orElse(List.of()), alone);
    Optional<By> by = alone.isEmpty() ? commands.by(said) : Optional.empty();
    Optional<List<Aspect>> asked = askedAspects(said);
    if (form.isEmpty() || listed.isEmpty() || heads.size() < listed.get().size()) {
      return Optional.empty();
    }
    if (heads.size() != form.get().places().size()) {
      complaints.headCount(
          said.at(Keys.HEADS),
          form.get().name(),
          form.get().places().size(),
          heads.size(),
          form.get().span());
      return Optional.empty();
    }
    boolean unlit = heads.stream().allMatch(h -> h.lamps().isEmpty());
    if (unlit || !alone.isEmpty() && heads.stream().anyMatch(h -> h.lamps().isEmpty())) {
      complaints.wrong(
          "contradiction",
          said.at(Keys.HEADS),
          unlit
              ? "this signal has no lamp at all"
              : "an arm that is commanded by itself has no lamp",
          "a table numbers signals along their chain of LEDs: give the arm a lamp by night.");
      return Optional.empty();
    }
    Optional<List<Integer>> wired = wired(said, form.get());
    Optional<Mast> mast = Masts.read(said, form.get(), complaints);
    Optional<Size> size = sizes.of(said, form.get());
    if (wired.isEmpty() || mast.isEmpty() || size.isEmpty()) {
      return Optional.empty();
    }
    Signal.Build bare =
        new Signal.Build(
            form.get(), heads, size.get(), plates, wired.get(), List.of(), List.of(), false);
    Optional<List<Feed>> feeds = Outputs.read(said, bare, chips, !alone.isEmpty(), complaints);
    if (feeds.isEmpty()) {
      return Optional.empty();
    }
    Signal.Build wiredUp = bare.lit(feeds.get());
    Optional<Dimmings> dimmings = Dimmings.read(said, bare, complaints);
    if (dimmings.isEmpty()) {
      return Optional.empty();
    }
    if (!alone.isEmpty()) {
      return byHead(said, wiredUp, mast.get(), dimmings.get(), alone);
    }
    return by.flatMap(
        m -> {
          Optional<List<Aspect>> named = asked.or(() -> namedAspects(said, m));
          boolean wrong = named.isPresent() && named.get().isEmpty();
          return wrong
              ? Optional.empty()
              : whole(said, m, wiredUp, mast.get(), dimmings.get(), named);
        });
  }

  /** A signal with one command, and the aspects that it names where it does. */
  private Optional<Design> whole(
      Section said,
      By by,
      Signal.Build bare,
      Mast mast,
      Dimmings dimmings,
      Optional<List<Aspect>> named) {
    Form form = bare.form();
    List<Aspect> aspects = named.orElseGet(() -> stopFirst(defaultAspects(form, bare.plates())));
    List<State> states = new ArrayList<>();
    Map<String, Integer> places = new HashMap<>();
    boolean numbered = aspects.stream().allMatch(a -> a.number() != Aspect.NO_NUMBER);
    for (Aspect aspect : shown(aspects, bare, named.isPresent())) {
      int number = numbered ? aspect.number() : places.size();
      places.put(aspect.name(), places.size());
      Pictures.of(aspect, form, bare.plates(), bare.heads())
          .map(
              picture ->
                  new State(
                      aspect.name(),
                      number,
                      picture,
                      Pictures.lit(picture, bare.heads(), bare.wired()),
                      aspect))
          .ifPresent(states::add);
    }
    List<Aspect> shown = states.stream().map(State::aspectOrNull).toList();
    int rest = Rulebook.mostRestrictive(shown).map(shown::indexOf).orElse(0);
    List<String> heads = list(bare.heads(), HeadType::name);
    Signal.Build build =
        new Signal.Build(
            form,
            bare.heads(),
            bare.size(),
            bare.plates(),
            bare.wired(),
            bare.feeds(),
            aspects,
            named.isPresent());
    return commands
        .answering(said, by, aspects, states, places)
        .map(
            a ->
                new Made(
                    a,
                    a.kind(
                        form.name(),
                        heads,
                        bare.plates(),
                        leds(bare),
                        states,
                        rest,
                        isLitOnApproach(said),
                        glows(bare.wired().stream().map(bare.heads()::get).toList()),
                        bare.feeds())))
        .map(
            m ->
                new UnitDesign(
                    "",
                    0,
                    intern(kinds, m.kind()),
                    m.answering().bus(),
                    said,
                    dimmings.of(0, bare.lamps()),
                    m.answering().unsaid()))
        .map(unit -> new Design(intern(builds, build), mast, leds(bare), List.of(unit)));
  }

  /**
   * Some aspects, those of many numbers as those that the heads have.
   *
   * @param named whether the layout names them, and so each number that is by itself
   */
  private static List<Aspect> shown(List<Aspect> aspects, Signal.Build bare, boolean named) {
    List<Aspect> shown = new ArrayList<>();
    for (Aspect aspect : aspects) {
      boolean asIs = aspect.numerals().letters().isEmpty() || named && !aspect.numerals().isOpen();
      aspect.each().stream()
          .filter(a -> asIs || Pictures.of(a, bare.form(), bare.plates(), bare.heads()).isPresent())
          .forEach(shown::add);
    }
    return shown;
  }

  /** A kind with the answering it was made of. */
  private record Made(Commands.Answering answering, Kind kind) {}

  private static int leds(Signal.Build build) {
    return build.feeds().isEmpty() ? build.lamps() : build.feeds().size();
  }

  /** A signal whose heads are commanded by themselves. */
  private Optional<Design> byHead(
      Section said, Signal.Build build, Mast mast, Dimmings dimmings, List<Section> alone) {
    List<Key<?>> refused = new ArrayList<>(Keys.ofCommands());
    refused.add(Keys.ASPECTS);
    refused.remove(Keys.OTHERWISE);
    if (commands.takesAddress(alone.get(0))) {
      refused.remove(Keys.ADDRESS);
    }
    if (said.ownSays(Keys.ADDRESSES)) {
      refused.remove(Keys.ADDRESSES);
    }
    refused.removeIf(key -> !said.says(key));
    refused.forEach(key -> refuseBesideHeads(said, key));
    boolean onApproach = isLitOnApproach(said);
    List<UnitDesign> units = new ArrayList<>();
    for (int place = 0; place < alone.size(); place++) {
      Section head = alone.get(place).basedOn(said.only(Keys.OTHERWISE));
      HeadType type = build.heads().get(place);
      Slice slice = Slice.of(build, place);
      unit(head, build.form().places().get(place), type, slice, dimmings, onApproach)
          .ifPresent(units::add);
    }
    return refused.isEmpty() && units.size() == alone.size()
        ? Optional.of(new Design(intern(builds, build), mast, leds(build), units))
        : Optional.empty();
  }

  private void refuseBesideHeads(Section said, Key<?> key) {
    complaints.commandKeys(
        said.entry(key).orElseThrow().key().span(),
        "\"{key}\" stands beside heads that are commanded by themselves",
        "write it at each head, or command the signal as a whole.",
        Datum.of("key", key.name()));
  }

  /** How the LEDs of heads in chain order go from light to light; empty when all switch at once. */
  private static List<Glow> glows(List<HeadType> heads) {
    List<Glow> glows = new ArrayList<>();
    for (HeadType head : heads) {
      for (Lamp lamp : head.lamps()) {
        boolean vane = lamp.colours().size() > 2 && lamp.shows(head.vane());
        glows.add(new Glow(head.filament(), vane ? head.vane() : ""));
      }
    }
    return glows.stream().allMatch(Glow.NONE::equals) ? List.of() : glows;
  }

  private static boolean isLitOnApproach(Section said) {
    return said.read(Keys.LIT).orElse(false);
  }

  private Optional<UnitDesign> unit(
      Section said,
      String place,
      HeadType type,
      Slice slice,
      Dimmings dimmings,
      boolean onApproach) {
    Optional<By> by = said.says(Keys.BY) ? commands.by(said) : Optional.empty();
    Optional<List<YamlNode.Scalar>> shows = said.read(Keys.SHOWS);
    if (by.isEmpty() || shows.isEmpty()) {
      return Optional.empty();
    }
    List<State> states = new ArrayList<>();
    Map<String, Integer> places = new HashMap<>();
    for (YamlNode.Scalar shown : shows.get()) {
      Optional<Display> display = displays.find(shown, type);
      if (display.isEmpty()) {
        return Optional.empty();
      }
      List<Display> picture = List.of(display.get());
      List<Display> lit = Pictures.lit(picture, List.of(type), List.of(0));
      String name = display.get().words();
      places.put(name, states.size());
      states.add(new State(name, states.size(), picture, lit, null));
    }
    List<String> types = List.of(type.name());
    return commands
        .answering(said, by.get(), List.of(), states, places)
        .map(
            a ->
                new Made(
                    a,
                    a.kind(
                        "",
                        types,
                        List.of(),
                        slice.leds(),
                        states,
                        0,
                        onApproach,
                        glows(List.of(type)),
                        slice.feeds())))
        .map(
            m ->
                new UnitDesign(
                    place,
                    slice.led(),
                    intern(kinds, m.kind()),
                    m.answering().bus(),
                    said,
                    dimmings.of(slice.lamp(), type.lamps().size()),
                    m.answering().unsaid()));
  }

  /** Nothing else is said of a signal that is nothing yet. */
  private void lacksForm(Section said) {
    if (said.isWhole()) {
      complaints.missingKey(
          said.span(),
          "this signal says neither its kind nor its form",
          "add \"kind: \" with one of the kinds, or \"form: \" with one of the rulebook's forms: {forms}.",
          Datum.of("forms", List.copyOf(list(book.forms(), Form::name))));
    }
  }

  private Optional<Form> form(Section said) {
    return said.read(Keys.FORM).flatMap(names::form);
  }

  private List<String> plates(Section said) {
    List<String> plates = new ArrayList<>();
    for (YamlNode.Scalar name : said.read(Keys.PLATES).orElse(List.of())) {
      names.plate(name).ifPresent(p -> plates.add(p.name()));
    }
    return plates;
  }

  /** The makes of head; fills {@code alone} where they are commanded by themselves. */
  private List<HeadType> heads(List<YamlNode> listed, List<Section> alone) {
    List<HeadType> heads = new ArrayList<>();
    for (YamlNode item : listed) {
      Optional<YamlNode.Scalar> type;
      if (item instanceof YamlNode.Mapping mapping) {
        Section head = Section.listed(mapping, Keys.HEAD, complaints);
        alone.add(head);
        type = head.read(Keys.TYPE);
      } else {
        type = Optional.of((YamlNode.Scalar) item);
      }
      type.flatMap(names::head).ifPresent(heads::add);
    }
    if (!alone.isEmpty() && alone.size() < listed.size()) {
      complaints.commandKeys(
          alone.get(0).span(),
          "this head is commanded by itself, but another head of its signal is not",
          "say \"type\", \"shows\" and \"by\" of every head, or list names only.");
      return List.of();
    }
    return heads;
  }

  private Optional<List<Integer>> wired(Section said, Form form) {
    List<Integer> topToBottom = IntStream.range(0, form.places().size()).boxed().toList();
    if (!said.says(Keys.WIRED)) {
      return Optional.of(topToBottom);
    }
    Optional<List<YamlNode.Scalar>> listed = said.read(Keys.WIRED);
    if (listed.isEmpty()) {
      return Optional.empty();
    }
    List<Integer> wired = new ArrayList<>();
    for (YamlNode.Scalar name : listed.get()) {
      if (form.places().contains(name.text())) {
        wired.add(form.places().indexOf(name.text()));
      } else {
        complaints.unknownName(name, "place of form " + form.name(), form.places());
      }
    }
    if (wired.size() == listed.get().size() && wired.size() < topToBottom.size()) {
      complaints.wrong(
          "wrong-count",
          said.at(Keys.WIRED),
          "\"{key}\" leaves out a place of form {form}",
          "list every place once, nearest the controller first: {places}.",
          Datum.of("key", Keys.WIRED.name()),
          Datum.of("form", form.name()),
          Datum.of("places", form.places()));
    }
    return wired.size() == topToBottom.size() ? Optional.of(wired) : Optional.empty();
  }

  /** The aspects that a signal lists; an empty list when the list is wrong. */
  private Optional<List<Aspect>> askedAspects(Section said) {
    if (!said.says(Keys.ASPECTS)) {
      return Optional.empty();
    }
    List<YamlNode.Scalar> listed = said.read(Keys.ASPECTS).orElse(List.of());
    List<Aspect> aspects = aspects(listed);
    for (int i = 0; i < aspects.size(); i++) {
      Optional<Aspect> whole = family(aspects.get(i), aspects);
      if (whole.isPresent()) {
        complaints.listedTwice(
            listed.get(i), listed.get(aspects.indexOf(whole.get())).span(), Keys.ASPECTS.name());
        return Optional.of(List.of());
      }
    }
    return Optional.of(aspects);
  }

  /** The aspect of many numbers beside one of its own. */
  private static Optional<Aspect> family(Aspect one, List<Aspect> among) {
    return among.stream().filter(a -> a != one && a.numerals().isOpen() && one.isOf(a)).findFirst();
  }

  /** The aspects that a signal without a list names in its commands, likewise. */
  private Optional<List<Aspect>> namedAspects(Section said, By by) {
    return commands
        .aspectsNamed(said, by)
        .map(this::aspects)
        .map(all -> all.stream().filter(a -> family(a, all).isEmpty()).toList());
  }

  private List<Aspect> aspects(List<YamlNode.Scalar> listed) {
    List<Aspect> aspects = new ArrayList<>();
    for (YamlNode.Scalar name : listed) {
      names.aspect(name).ifPresent(aspects::add);
    }
    return aspects.size() == listed.size() ? aspects : List.of();
  }

  private List<Aspect> defaultAspects(Form form, List<String> plates) {
    return defaultAspects.computeIfAbsent(
        List.of(form, plates), k -> Pictures.aspectsOf(book, form, plates));
  }

  /**
   * Aspects by number, as the book sorts them; where one has none they go by name, and then value 0
   * would be whichever name comes first.
   */
  private static List<Aspect> stopFirst(List<Aspect> aspects) {
    boolean numbered = aspects.stream().allMatch(a -> a.number() != Aspect.NO_NUMBER);
    Optional<Aspect> stop = numbered ? Optional.empty() : Rulebook.mostRestrictive(aspects);
    List<Aspect> ordered = new ArrayList<>(aspects);
    stop.ifPresent(
        first -> {
          ordered.remove(first);
          ordered.add(0, first);
        });
    return ordered;
  }

  private List<String> headNames() {
    return book.heads().stream().limit(1).map(HeadType::name).toList();
  }

  private static <T> List<String> list(Collection<T> of, Function<T, String> nameOf) {
    return of.stream().map(nameOf).toList();
  }

  private static boolean hasName(Set<Key<?>> keys, String name) {
    return keys.stream().anyMatch(key -> key.name().equals(name));
  }

  private static <T> T intern(Map<T, T> known, T value) {
    T first = known.putIfAbsent(value, value);
    return first == null ? value : first;
  }
}
