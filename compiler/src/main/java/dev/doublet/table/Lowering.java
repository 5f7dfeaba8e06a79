package dev.doublet.table;

import dev.doublet.bus.Accessory;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Kind.Otherwise;
import dev.doublet.layout.Servo;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.table.TableFault.Reason;
import dev.doublet.table.TableModel.Mode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;

/**
 * Turns a controller into what its table holds: names become places in lists, colours become the
 * bytes a chain sends. Lists are sorted, kinds by the first unit of each, so that like layouts have
 * like tables. What lamps show is numbered by {@link Lights}, and what no table can hold is refused
 * by {@link Refusals}.
 */
public final class Lowering {
  private static final int SETTLING_STEP = 16;
  private static final int LAST_VALUE = 255;

  private final Rulebook book;
  private final Controller controller;
  private final List<Unit> units;
  private final Lights lights;
  private final List<dev.doublet.layout.Bus> buses;

  private Lowering(Rulebook book, Controller controller) throws TableFault {
    this.book = book;
    this.controller = controller;
    this.units = order(controller);
    this.lights = new Lights(book, units);
    this.buses = buses(controller);
  }

  /**
   * What a controller's table holds.
   *
   * @throws TableFault when the layout is not whole, or two topics or names share a checksum
   */
  public static TableModel lower(Rulebook book, Controller controller) throws TableFault {
    return new Lowering(book, controller).model();
  }

  /**
   * A controller's units in the order in which readers number them: by chain, then first LED, then
   * name.
   */
  public static List<Unit> order(Controller controller) {
    return controller.units().stream()
        .sorted(
            Comparator.comparingInt((Unit u) -> u.chain().index())
                .thenComparingInt(Unit::led)
                .thenComparing(Unit::name))
        .toList();
  }

  /**
   * The buses a controller's table knows, in the order in which readers number them: by name, as a
   * module's table must not depend on where the layout that uses it declares them.
   */
  public static List<dev.doublet.layout.Bus> buses(Controller controller) {
    SortedSet<dev.doublet.layout.Bus> used =
        new TreeSet<>(Comparator.comparing(dev.doublet.layout.Bus::name));
    controller.units().forEach(u -> used.add(u.command().bus()));
    return List.copyOf(used);
  }

  private TableModel model() throws TableFault {
    Refusals.ask(controller, units, buses);
    List<TableModel.Chain> chains = new ArrayList<>();
    List<List<Integer>> levels = new ArrayList<>();
    for (Chain chain : controller.chains()) {
      List<Integer> of = levels(chain);
      levels.add(of);
      List<Integer> day = new ArrayList<>();
      List<Integer> night = new ArrayList<>();
      for (int level : of) {
        day.addAll(lights.palette(chain, chain.brightness() * level));
        night.addAll(lights.palette(chain, chain.night() * level));
      }
      chains.add(
          new TableModel.Chain(
              chain.leds(), chain.part().channels(), day, night.equals(day) ? List.of() : night));
    }
    List<TableModel.Kind> kinds = new ArrayList<>();
    Map<TableModel.Kind, Integer> places = new HashMap<>();
    List<TableModel.Unit> lowered = new ArrayList<>();
    for (Unit unit : units) {
      TableModel.Kind kind = kind(unit);
      Integer place = places.get(kind);
      if (place == null) {
        place = kinds.size();
        places.put(kind, place);
        kinds.add(kind);
      }
      int level = Math.max(0, levels.get(unit.chain().index()).indexOf(unit.dimming().percent()));
      lowered.add(new TableModel.Unit(place, firstLed(unit), key(unit, kind), level));
    }
    return new TableModel(
        book.edition(),
        lights.colours(),
        buses.stream().map(Lowering::bus).toList(),
        chains,
        lights.rhythms(),
        lights.flashing(),
        kinds,
        lowered,
        servos());
  }

  /**
   * Servos by their channels; a step is large enough for the last to end within the time of travel,
   * so that an arm takes no longer than is said.
   */
  private List<TableModel.Servo> servos() {
    List<TableModel.Servo> servos = new ArrayList<>();
    for (int unit = 0; unit < units.size(); unit++) {
      for (Servo servo : units.get(unit).servos()) {
        int steps = servo.travel() / TableModel.Servo.STEP;
        int step = (servo.swing() + steps - 1) / steps;
        List<Integer> pulses =
            units.get(unit).kind().states().stream().map(s -> servo.pulse(s.picture())).toList();
        servos.add(new TableModel.Servo(servo.channel(), unit, Math.max(1, step), pulses));
      }
    }
    servos.sort(Comparator.comparingInt(TableModel.Servo::channel));
    return servos;
  }

  /** The brightness of units on a chain in percent of its own, from bright to dim, at least one. */
  private List<Integer> levels(Chain chain) {
    if (lights.colours() == 0) {
      return List.of(100);
    }
    List<Integer> levels =
        units.stream()
            .filter(u -> u.chain().index() == chain.index())
            .map(u -> u.dimming().percent())
            .distinct()
            .sorted(Comparator.reverseOrder())
            .toList();
    return levels.isEmpty() ? List.of(100) : levels;
  }

  private static TableModel.Bus bus(dev.doublet.layout.Bus bus) {
    boolean dcc = bus.speaks() == Speaks.DCC;
    return new TableModel.Bus(
        bus.speaks(), dcc ? bus.aspectBits() : 0, dcc ? bus.firstDecoder() : 0);
  }

  private TableModel.Kind kind(Unit unit) throws TableFault {
    Kind kind = unit.kind();
    if (kind.states().isEmpty()) {
      throw new TableFault(Reason.NOT_COMPLETE, unit.name() + " can show nothing");
    }
    List<TableModel.State> states = new ArrayList<>();
    for (State state : kind.states()) {
      List<Integer> shown = new ArrayList<>();
      for (int lamp = 0; lamp < state.lit().size(); lamp++) {
        shown.add(lights.number(unit, lamp, state.lit().get(lamp)));
      }
      states.add(new TableModel.State(state.number(), hung(unit, shown, 0)));
    }
    TableModel.Look look =
        new TableModel.Look(kind.leds(), states, glows(unit)).with(numeral(unit, states));
    Way way = kind.way();
    boolean byName = way instanceof Way.Topic topic && topic.byName();
    boolean listed = way instanceof Way.Event && isListed(unit, look);
    return new TableModel.Kind(
        look,
        Mode.of(way),
        buses.indexOf(unit.command().bus()),
        unit.command().addresses().size(),
        kind.rest(),
        way instanceof Way.BinaryCoded bits && bits.oneIsNormal(),
        way instanceof Way.BinaryCoded bits && bits.lowFirst(),
        (way.settle() + SETTLING_STEP - 1) / SETTLING_STEP,
        !(way instanceof Way.Event) && kind.otherwise() == Otherwise.KEEP,
        listed,
        kind.onApproach(),
        byName || listed ? List.of() : answers(unit, look),
        byName ? names(kind) : List.of());
  }

  /**
   * The head that shows numbers, of several the one that saves most; none where that saves nothing,
   * and none at chips, whose pictures stay whole.
   */
  private TableModel.Part numeral(Unit unit, List<TableModel.State> states) {
    if (states.get(0).lights().size() != unit.kind().leds()) {
      return TableModel.Part.NONE;
    }
    TableModel.Part best = TableModel.Part.NONE;
    int least = states.size() * unit.kind().leds();
    for (TableModel.Part head : numerals(unit.kind(), states)) {
      int size = NumeralBytes.of(states, head).size(unit.kind().leds(), head);
      if (size < least) {
        best = head;
        least = size;
      }
    }
    return best;
  }

  /** For each letter of an aspect's name, the LEDs that tell its numbers apart. */
  private static Collection<TableModel.Part> numerals(Kind kind, List<TableModel.State> states) {
    Map<List<Object>, List<Integer>> first = new HashMap<>();
    Map<List<Object>, TableModel.Part> parts = new LinkedHashMap<>();
    for (int i = 0; i < states.size(); i++) {
      List<Integer> lights = states.get(i).lights();
      Optional<Aspect> aspect = kind.states().get(i).aspect();
      List<Integer> shown = aspect.map(a -> a.numerals().shown()).orElse(List.of());
      for (int letter = 0; letter < shown.size(); letter++) {
        List<Integer> others = new ArrayList<>(shown);
        others.set(letter, 0);
        List<Integer> other =
            first.computeIfAbsent(List.of(aspect.get().family(), others), k -> lights);
        for (int led = 0; led < lights.size(); led++) {
          if (!lights.get(led).equals(other.get(led))) {
            parts.merge(
                List.of(aspect.get().family(), letter),
                new TableModel.Part(led, 1),
                TableModel.Part::to);
          }
        }
      }
    }
    return parts.values();
  }

  /** Vanes count only where the palettes hold the colour in their middle. */
  private List<TableModel.Glow> glows(Unit unit) {
    List<Glow> on = unit.kind().glowsOn(unit.chain().part());
    List<TableModel.Glow> glows = new ArrayList<>();
    for (int lamp = 0; lamp < on.size(); lamp++) {
      String middle = on.get(lamp).middle();
      int passed = middle.isEmpty() ? 0 : lights.number(unit, lamp, middle);
      glows.add(new TableModel.Glow(on.get(lamp).filament(), passed));
    }
    boolean any = glows.stream().anyMatch(g -> g.filament() || g.middle() > 0);
    return any ? hung(unit, glows, new TableModel.Glow(false, 0)) : List.of();
  }

  /**
   * What lamps have, as it hangs on the chain: by LED, or where a unit has chips by channel of each
   * LED and chip.
   *
   * @param unused what an output has that lights nothing
   */
  private static <T> List<T> hung(Unit unit, List<T> lamps, T unused) {
    if (unit.kind().feeds().isEmpty()) {
      return lamps;
    }
    List<T> hung = new ArrayList<>();
    for (Feed feed : unit.kind().feeds()) {
      for (int channel = 0; channel < unit.chain().part().channels(); channel++) {
        int lamp = feed.lamps().get(feed.chip().isPresent() ? channel : 0);
        hung.add(lamp == Feed.NONE ? unused : lamps.get(lamp));
      }
    }
    return hung;
  }

  private static List<Answer> answers(Unit unit, TableModel.Look look) {
    if (!(unit.kind().way() instanceof Way.Event)) {
      SortedMap<Integer, Answer> first = new TreeMap<>();
      unit.kind().answers().forEach(a -> first.putIfAbsent(a.value(), a));
      return List.copyOf(first.values());
    }
    return isEvenlySpaced(unit, byNumber(look)) ? byNumber(look) : byPlace(look);
  }

  /** The answers when the value received is a state's number; the first of like numbers. */
  private static List<Answer> byNumber(TableModel.Look look) {
    SortedMap<Integer, Answer> first = new TreeMap<>();
    for (int i = 0; i < look.states().size(); i++) {
      int number = look.states().get(i).number();
      first.putIfAbsent(number, new Answer(number, i));
    }
    return List.copyOf(first.values());
  }

  /** The answers when the value received is a state's place. */
  private static List<Answer> byPlace(TableModel.Look look) {
    return IntStream.range(0, look.states().size()).mapToObj(i -> new Answer(i, i)).toList();
  }

  private static boolean isListed(Unit unit, TableModel.Look look) {
    return !isEvenlySpaced(unit, byNumber(look)) && !isEvenlySpaced(unit, byPlace(look));
  }

  /** True when every state's event is one base plus the value that answers give the state. */
  private static boolean isEvenlySpaced(Unit unit, List<Answer> answers) {
    List<Long> events = unit.command().events();
    if (answers.size() != events.size()) {
      return false;
    }
    long base = events.get(0) - valueOf(0, answers);
    return Long.compareUnsigned(base, -1L - LAST_VALUE) <= 0
        && answers.stream().allMatch(a -> events.get(a.state()) - a.value() == base);
  }

  private static int valueOf(int state, List<Answer> answers) {
    return answers.stream().filter(a -> a.state() == state).findFirst().orElseThrow().value();
  }

  private static List<Long> key(Unit unit, TableModel.Kind kind) {
    return switch (kind.mode().speaks()) {
      case DCC -> binaryAddresses(unit);
      case MQTT -> List.of(Integer.toUnsignedLong(Checksum.of(unit.command().topic())));
      case OPENLCB ->
          kind.listed()
              ? unit.command().events()
              : List.of(unit.command().events().get(0) - valueOf(0, kind.answers()));
    };
  }

  private static List<Long> binaryAddresses(Unit unit) {
    int firstDecoder = unit.command().bus().firstDecoder();
    return unit.command().addresses().stream()
        .map(user -> (long) Accessory.binary(user, firstDecoder))
        .toList();
  }

  private static List<Integer> names(Kind kind) throws TableFault {
    Map<Integer, String> seen = new TreeMap<>();
    List<Integer> sums = new ArrayList<>();
    for (String name : kind.stateNames()) {
      int sum = Checksum.of(NameFolding.of(name));
      Refusals.alike("names", seen.put(sum, name), name);
      sums.add(sum);
    }
    return sums;
  }

  private int firstLed(Unit unit) {
    return unit.led()
        + controller.chains().subList(0, unit.chain().index()).stream().mapToInt(Chain::leds).sum();
  }
}
