package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Command;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Spelling;
import dev.doublet.layout.read.Design.UnitDesign;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * The way along one cable, from the controller outward, signal by signal. It is long because where
 * a signal stands, what it takes over and what is believed of it all follow from the ones before.
 */
final class Walk {
  /** So many LEDs in a row without a signal are believed only where a gap says them. */
  private static final int FARTHEST = 1_000;

  /** What signals that are written as one cannot say, as each needs its own. */
  private static final List<Key<?>> SINGLE =
      List.of(Keys.ADDRESSES, Keys.TOPIC, Keys.FIRST_EVENT, Keys.EVENTS);

  private final Ground ground;
  private final List<Placed> placed = new ArrayList<>();
  private final TreeMap<Integer, Placed> byLed = new TreeMap<>();

  /** What a signal that says neither kind nor form is built like; empty for nothing known. */
  private Optional<Section> before = Optional.empty();

  /** True from a signal whose kind or form has a mistake to the next that says its own. */
  private boolean strange;

  private int next;
  private int leds;

  /** False from a signal of unknown size or place to the next that says its LED. */
  private boolean certain = true;

  /** True from a signal that overlaps to the next that says its LED: one mistake moves them all. */
  private boolean overlapped;

  /** How the cable lies, as far as it is said. */
  private final Laying laying;

  /** How many addresses the signal before takes. */
  private int step = 1;

  /** True while signals are read that are written as one. */
  private boolean several;

  Walk(Ground ground) {
    this.ground = ground;
    this.laying = new Laying(ground.complaints());
  }

  /**
   * What the walks along all cables share.
   *
   * @param nothing a section that says nothing
   * @param names where each name of a unit was given
   * @param boards where each name of a board with sockets was
   */
  record Ground(
      Declared<Section> kinds,
      Designs designs,
      Listening listening,
      Servos servos,
      Pins pins,
      Complaints complaints,
      Section nothing,
      Map<String, YamlNode.Scalar> names,
      Map<String, YamlNode.Scalar> boards) {

    Ground(
        Declared<Section> kinds,
        Designs designs,
        Listening listening,
        Servos servos,
        Pins pins,
        Complaints complaints,
        Section nothing) {
      this(
          kinds,
          designs,
          listening,
          servos,
          pins,
          complaints,
          nothing,
          new HashMap<>(),
          new HashMap<>());
    }
  }

  /** A signal whose place is known, before its chain is. */
  record Placed(
      String name,
      String note,
      boolean fixed,
      Span span,
      Design design,
      List<Command> commands,
      List<Servo> servos,
      int led,
      Span where,
      boolean certain) {

    int end() {
      return led + design.leds();
    }
  }

  /** The signals without a mistake, in the order of the cable. */
  List<Placed> placed() {
    return placed.stream().sorted(Comparator.comparingInt(Placed::led)).toList();
  }

  /** How its cable lies. */
  Laying laying() {
    return laying;
  }

  /** How many LEDs there are at least, gaps included. */
  int leds() {
    return leds;
  }

  /** False when there may be more LEDs than are known. */
  boolean isCertain() {
    return certain;
  }

  /** One item of the list of signals; empty when it could not be read. */
  void step(Optional<YamlNode.Mapping> item) {
    if (item.isEmpty()) {
      lose();
    } else if (Section.peek(item.get(), Keys.GAP).isPresent()) {
      Section gap = Section.listed(item.get(), Keys.GAP_OF, ground.complaints());
      certain &= gap.isRead();
      next += gap.read(Keys.GAP).orElse(0);
      leds = Math.max(leds, next);
    } else if (Section.peek(item.get(), Keys.SOCKET_BOARD).isPresent()) {
      Section board = Section.listed(item.get(), Keys.SOCKET_BOARD_OF, ground.complaints());
      board.read(Keys.SOCKET_BOARD).ifPresent(this::board);
      laying.board(board, next);
    } else {
      signals(Section.listed(item.get(), Keys.SIGNAL, ground.complaints()));
    }
  }

  /** One signal, or several alike, of which each address that is said is the first one's. */
  private void signals(Section own) {
    Optional<YamlNode.Scalar> name = own.read(Keys.NAME);
    name.filter(n -> n.text().codePoints().anyMatch(Walk::isPicture))
        .ifPresent(ground.complaints()::pictured);
    List<String> names = name.map(n -> NameRun.names(n.text())).orElse(List.of());
    several = names.size() > 1;
    if (!isRunOf(names, own)) {
      lose();
    } else if (!several) {
      signal(own, name, 1);
    } else {
      run(own, name.get(), names);
    }
  }

  /** True for what stands among the blocks of pictures and dingbats of Unicode. */
  private static boolean isPicture(int character) {
    return character >= 0x1F000 && character < 0x1FB00 || character >= 0x2600 && character < 0x27C0;
  }

  /** False for names of several signals that are wrong, or stand beside what one signal has. */
  private boolean isRunOf(List<String> names, Section own) {
    Optional<YamlNode.Scalar> name = own.read(Keys.NAME);
    Optional<String> fault = name.flatMap(n -> NameRun.fault(n.text()));
    if (fault.isPresent()) {
      ground
          .complaints()
          .wrong(
              "malformed-value",
              name.get().span(),
              "\"{name}\" is no run of signals: {reason}",
              "write the same letters before both numbers and the lower number first, as in"
                  + " \"J1 to J40\"; a name of one signal has no \"to\" between numbers.",
              Datum.of("name", name.get().text()),
              Datum.of("reason", fault.get()));
      return false;
    }
    Optional<Key<?>> single = SINGLE.stream().filter(own::ownSays).findFirst();
    if (names.size() > 1 && single.isPresent()) {
      ground
          .complaints()
          .wrong(
              "contradiction",
              own.entry(single.get()).orElseThrow().key().span(),
              "\"{key}\" is one signal's, and this is {signals}",
              single.get() == Keys.TOPIC
                  ? "leave it out, as each has that of its bus and its name, or write the signals one by one."
                  : "say the first \"address\" alone, or write the signals one by one.",
              Datum.of("key", single.get().name()),
              Datum.count("signals", names.size(), "signal"));
      return false;
    }
    return true;
  }

  private void run(Section own, YamlNode.Scalar name, List<String> names) {
    Section following = own.without(Set.of(Keys.LED));
    Optional<Integer> address = own.read(Keys.ADDRESS);
    if (!ground.servos().reach(own, names.size())) {
      lose();
      return;
    }
    for (int i = 0; i < names.size(); i++) {
      YamlNode.Scalar called = new YamlNode.Scalar(names.get(i), true, name.span());
      Section beside = i == 0 ? own : Servos.inStep(following, i);
      Section said =
          i > 0 && address.isPresent()
              ? beside.saying(Keys.ADDRESS, address.get() + i * step)
              : beside;
      int signals = i == 0 && address.isEmpty() ? names.size() : i == 0 ? 1 : 0;
      Optional<Boolean> sound =
          ground
              .complaints()
              .lossless(
                  () -> {
                    signal(said, Optional.of(called), signals);
                    return Optional.of(true);
                  });
      if (sound.isEmpty()) {
        lose();
        return;
      }
    }
  }

  /** Something stands here of which neither size nor addresses are known. */
  private void lose() {
    certain = false;
    laying.lose();
    ground.listening().lose();
  }

  /**
   * One signal.
   *
   * @param signals how many take addresses from here on; 0 for one that goes on from the first
   */
  private void signal(Section own, Optional<YamlNode.Scalar> name, int signals) {
    Optional<Section> kind = kind(own);
    Section said = kind.map(own::basedOn).orElse(own);
    Optional<Design> design = kind.flatMap(k -> ground.designs().of(said, k));
    if (design.isEmpty()) {
      name.ifPresent(n -> isNew(n, List.of(n.text())));
      strange |= own.says(Keys.FORM);
      lose();
      return;
    }
    Optional<List<Command>> commands = commands(design.get(), own, said, name, signals);
    Optional<List<Servo>> servos = ground.servos().read(said, design.get().build());
    boolean isNew =
        name.isPresent()
            && isNew(
                name.get(),
                Stream.concat(
                        Stream.of(text(name)),
                        design.get().units().stream().map(u -> u.nameOn(text(name))))
                    .distinct()
                    .toList());
    if (!reach(own, design.get())) {
      certain = false;
      return;
    }
    boolean told = own.says(Keys.LED);
    int led = next;
    next += design.get().leds();
    Span where = told ? own.at(Keys.LED) : own.span();
    Placed signal =
        new Placed(
            text(name),
            own.read(Keys.NOTE).map(YamlNode.Scalar::text).orElse(""),
            own.read(Keys.FIXED).orElse(false),
            own.span(),
            design.get(),
            commands.orElse(List.of()),
            servos.orElse(List.of()),
            led,
            where,
            certain);
    laying.signal(own, signal);
    if (place(signal, told)
        && isNew
        && commands.isPresent()
        && servos.isPresent()
        && own.isRead()) {
      placed.add(signal);
    }
  }

  /** Goes on to the signal's first LED; false when it is not known, or too far to believe. */
  private boolean reach(Section own, Design design) {
    if (!own.says(Keys.LED)) {
      return true;
    }
    Optional<Integer> told = own.read(Keys.LED);
    if (told.isEmpty()) {
      return false;
    }
    int gap = told.get() - 1 - next;
    if (gap > FARTHEST) {
      ground.complaints().farAway(own.at(Keys.LED), told.get(), gap);
      return false;
    }
    next = told.get() - 1;
    certain = true;
    return true;
  }

  /** Puts a signal on its LEDs; false when they are not to be had. */
  private boolean place(Placed signal, boolean told) {
    if (signal.end() > Keys.MOST_LEDS) {
      ground.complaints().chainTooLong(signal.where(), signal.name(), signal.end());
      return false;
    }
    leds = Math.max(leds, next);
    Map.Entry<Integer, Placed> earlier = byLed.lowerEntry(signal.end());
    boolean meets =
        earlier != null && earlier.getValue().end() > signal.led() && signal.led() < signal.end();
    if (meets && signal.certain() && earlier.getValue().certain() && (told || !overlapped)) {
      Placed other = earlier.getValue();
      int shared = Math.max(signal.led(), other.led()) + 1;
      ground
          .complaints()
          .ledOverlap(signal.where(), signal.name(), other.where(), other.name(), shared);
    }
    overlapped = meets || overlapped && !told;
    byLed.putIfAbsent(signal.led(), signal);
    return !meets;
  }

  private Optional<Section> kind(Section own) {
    if (own.says(Keys.KIND_OF)) {
      before =
          own.read(Keys.KIND_OF).flatMap(name -> ground.kinds().find(name, ground.complaints()));
      strange = before.isEmpty();
      return before;
    }
    if (own.says(Keys.FORM)) {
      before = Optional.of(own.without(Keys.WHERE));
      strange = false;
      return Optional.of(ground.nothing());
    }
    if (strange || !own.isWhole()) {
      return Optional.empty();
    }
    if (before.isEmpty() && ground.kinds().isWhole() && ground.kinds().names().size() == 1) {
      before = ground.kinds().all().get(0);
      strange = before.isEmpty();
      return before;
    }
    return before.isPresent() || !ground.kinds().isWhole() ? before : Optional.of(ground.nothing());
  }

  /** Several signals written as one have one address to say, the first. */
  private boolean isListedOneByOne(Design design, Section own) {
    boolean alone = !design.units().get(0).place().isEmpty();
    boolean counted =
        design.units().stream().anyMatch(u -> u.unsaid().map(Pins.Unsaid::listed).orElse(false));
    if (alone || counted) {
      ground
          .complaints()
          .wrong(
              "contradiction",
              own.span(),
              alone
                  ? "heads that are commanded by themselves cannot go on from one address"
                  : "how many addresses each takes follows from aspects that these cannot show",
              alone
                  ? "write the signals one by one."
                  : "say \"values\", or \"aspects\" that they can show.");
    }
    return alone || counted;
  }

  private static String text(Optional<YamlNode.Scalar> name) {
    return name.map(YamlNode.Scalar::text).orElse("");
  }

  /** False when another signal has such a name; a signal that is nothing yet has one too. */
  private boolean isNew(YamlNode.Scalar name, List<String> units) {
    for (String called : units) {
      YamlNode.Scalar first = ground.names().putIfAbsent(Spelling.alike(called), name);
      if (first != null && !first.text().equals(name.text())) {
        ground.complaints().speltAlike("signals", name, first, Spelling.of(called));
        return false;
      }
      if (first != null) {
        ground.complaints().calledAlike("signals", name, first, called);
        return false;
      }
    }
    return true;
  }

  /** A board's name, by which charts and labels tell it from others. */
  private void board(YamlNode.Scalar name) {
    YamlNode.Scalar first = ground.boards().putIfAbsent(name.text(), name);
    if (first != null) {
      ground.complaints().calledAlike("boards", name, first, name.text());
    }
  }

  private Optional<List<Command>> commands(
      Design design, Section own, Section said, Optional<YamlNode.Scalar> name, int signals) {
    Optional<Listening.Given> given =
        design.units().get(0).place().isEmpty() || !own.ownSays(Keys.ADDRESSES)
            ? Optional.empty()
            : own.read(Keys.ADDRESSES)
                .map(a -> new Listening.Given(new ArrayDeque<>(a), own.at(Keys.ADDRESSES)));
    String called = name.map(YamlNode.Scalar::text).orElse("?");
    List<Command> commands = new ArrayList<>();
    step = Math.max(1, design.units().get(0).kind().way().addresses());
    if (several && isListedOneByOne(design, own)) {
      return Optional.empty();
    }
    for (UnitDesign unit : design.units()) {
      Section speaker = said;
      String topic = called;
      boolean listed = unit.unsaid().map(Pins.Unsaid::listed).orElse(false);
      Listening.Sayer sayer = new Listening.Sayer(own, Optional.empty(), listed, signals);
      if (!unit.place().isEmpty()) {
        boolean first = unit == design.units().get(0);
        speaker = first ? unit.said().basedOn(said.only(Keys.ADDRESS)) : unit.said();
        topic = called + "/" + unit.place();
        // Signals built alike share what their heads say, and so an address is not said there.
        sayer = new Listening.Sayer(own, given, true, 1);
      }
      Optional<Command> command = ground.listening().of(unit, speaker, topic, sayer);
      command.ifPresent(commands::add);
      if (listed && command.isPresent() && speaker.says(Keys.ADDRESS)) {
        ground.pins().counted(speaker, command.get().addresses());
      }
      ground.pins().values(own, unit, speaker);
    }
    given
        .filter(g -> !g.left().isEmpty())
        .ifPresent(g -> ground.complaints().addressesLeft(g.span(), g.left().size()));
    return commands.size() == design.units().size() ? Optional.of(commands) : Optional.empty();
  }
}
