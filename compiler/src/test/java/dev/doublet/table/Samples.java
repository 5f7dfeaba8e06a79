package dev.doublet.table;

import dev.doublet.colour.LedFamily;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Command;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Dimming;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Kind.Otherwise;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.layout.State;
import dev.doublet.layout.Supply;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Failures;
import dev.doublet.rulebook.Numbers;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Unread;
import dev.doublet.source.Mentions;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.CRC32C;

/** Controllers to make tables of, built without any text. */
final class Samples {
  static final Span NOWHERE = new Span(new SourceFile("layout.yaml", ""), 0, 0);

  static final Rulebook BOOK =
      new Rulebook(
          "Brackwater & Northern",
          3,
          "",
          "mph",
          "",
          List.of(),
          Numbers.NONE,
          List.of(),
          List.of(
              new Rhythm("flashing", 50, 50, false, NOWHERE),
              new Rhythm("winking", 97, 30, false, NOWHERE),
              new Rhythm("pulsing", 600, 99, false, NOWHERE),
              new Rhythm("flashing-late", 50, 50, true, NOWHERE),
              new Rhythm("winking-late", 97, 30, true, NOWHERE)),
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          Failures.UNSAID,
          List.of(),
          List.of(),
          Unread.NOTHING,
          Mentions.NONE,
          NOWHERE);

  static final Bus DCC = new Bus("track", Speaks.DCC, 1, 5, "", NOWHERE);

  static final Part PIXEL =
      part(
          "pixel",
          "GRB",
          Map.of(
              "red", List.of(200, 0, 0),
              "yellow", List.of(180, 90, 0),
              "green", List.of(0, 160, 40),
              "lunar", List.of(120, 120, 140)));

  static final Part FOUR_CHANNEL =
      part(
          "four-channel",
          "RGBW",
          Map.of(
              "red", List.of(255, 0, 0, 0),
              "yellow", List.of(150, 80, 0, 1),
              "green", List.of(0, 255, 30, 0),
              "lunar", List.of(0, 0, 30, 255),
              "blue", List.of(0, 0, 99, 0)));

  static final List<String> COLOURS = List.of("red", "yellow", "green", "lunar");

  /** What vanes have in their middle: blue is shown by nothing, and driven by one part alone. */
  private Samples() {}

  static Part part(String name, String order, Map<String, List<Integer>> drive) {
    String family = order.length() == 4 ? "one-wire-rgbw-5050-white-6500k" : "one-wire-rgb-5050";
    return new Part(
        name,
        order,
        LedFamily.named(family).orElseThrow(),
        new TreeMap<>(drive),
        12,
        0.6,
        280,
        3.7,
        5.3,
        NOWHERE);
  }

  static Controller controller(List<Chain> chains, List<Unit> units) {
    List<Signal> signals =
        units.stream()
            .map(u -> new Signal(u.name(), null, null, "", false, List.of(u), u.span()))
            .toList();
    return new Controller("west", null, 32_000, 2_000, chains, signals, NOWHERE);
  }

  static TableModel lower(Controller controller) {
    try {
      return Lowering.lower(BOOK, controller);
    } catch (TableFault fault) {
      throw new AssertionError(fault);
    }
  }

  static byte[] write(TableModel model) {
    try {
      return TableWriter.write(model);
    } catch (TableFault fault) {
      throw new AssertionError(fault);
    }
  }

  static byte[] write(Controller controller) {
    return write(lower(controller));
  }

  /** Writes the checksum that fits the bytes before it. */
  static void seal(byte[] table) {
    CRC32C crc = new CRC32C();
    crc.update(table, 0, table.length - 4);
    ByteBuffer.wrap(table)
        .order(ByteOrder.LITTLE_ENDIAN)
        .putInt(table.length - 4, (int) crc.getValue());
  }

  /** A kind of so many LEDs whose states show colours that differ from kind to kind. */
  static Kind kind(int leds, int states, int variety) {
    List<State> shown = new ArrayList<>();
    List<Answer> answers = new ArrayList<>();
    for (int i = 0; i < states; i++) {
      List<Display> lit = new ArrayList<>();
      for (int led = 0; led < leds; led++) {
        int pick = (i * 5 + led * 3 + variety * (led + 1)) % 9;
        lit.add(
            pick == 8
                ? Display.DARK
                : new Display(COLOURS.get(pick % 4), pick / 4 == 1 ? "flashing" : ""));
      }
      shown.add(new State("Aspect " + i, i, lit, lit, null));
      answers.add(new Answer(i, i));
    }
    return new Kind(
        "form-" + variety,
        List.of(),
        List.of(),
        leds,
        shown,
        0,
        new Way.AspectNumber(),
        answers,
        false,
        List.of(),
        List.of(),
        Otherwise.UNSAID);
  }

  /** How the kinds of a fleet follow one another. */
  enum Arrangement {
    /** All of one kind, then all of the next. */
    BLOCKS,
    /** Each signal of another kind than the one before. */
    CYCLING
  }

  /**
   * Signals of eight kinds with ten aspects each, one to eight LEDs, addresses and LEDs in order
   * with a gap after every ten.
   */
  static Controller fleet(int signals, Arrangement arrangement) {
    List<Kind> kinds = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      kinds.add(kind(i + 1, 10, i));
    }
    Chain chain =
        new Chain(
            "main", 0, PIXEL, 80, 80, 8 * signals, Supply.UNSAID, Cable.UNSAID, List.of(), NOWHERE);
    List<Unit> units = new ArrayList<>();
    int led = 0;
    int address = 1;
    for (int i = 0; i < signals; i++) {
      int pick = arrangement == Arrangement.BLOCKS ? i * 8 / signals : i % 8;
      Kind kind = kinds.get(pick);
      Command command = new Command(DCC, List.of(address), "", List.of());
      units.add(
          new Unit("S" + i, "S" + i, kind, chain, led, command, Dimming.NONE, List.of(), NOWHERE));
      boolean gap = i % 10 == 9;
      led += kind.leds() + (gap ? 1 : 0);
      address += gap ? 2 : 1;
    }
    return controller(List.of(chain), units);
  }

  /** A one-lamp signal on a topic, whose payloads are these names. */
  static Unit onTopic(String name, Chain chain, int led, String topic, List<String> aspects) {
    Bus bus = new Bus("net", Speaks.MQTT, 0, 0, "brackwater", NOWHERE);
    List<State> states = new ArrayList<>();
    for (String aspect : aspects) {
      List<Display> lit = List.of(Display.steady("red"));
      states.add(new State(aspect, states.size(), lit, lit, null));
    }
    Kind kind = commanded(new Way.Topic(true), states, List.of(), Otherwise.UNSAID);
    Command command = new Command(bus, List.of(), topic, List.of());
    return new Unit(name, name, kind, chain, led, command, Dimming.NONE, List.of(), NOWHERE);
  }

  private static Kind commanded(
      Way way, List<State> states, List<Answer> answers, Otherwise otherwise) {
    return new Kind(
        "form",
        List.of(),
        List.of(),
        states.get(0).lit().size(),
        states,
        0,
        way,
        answers,
        false,
        List.of(),
        List.of(),
        otherwise);
  }

  /** One signal in each way of commanding, and of each way a table keeps it; two sorts of chain. */
  static Controller everyMode() {
    Bus yard = new Bus("yard", Speaks.DCC, 0, 8, "", NOWHERE);
    Bus net = new Bus("net", Speaks.MQTT, 0, 0, "brackwater", NOWHERE);
    Bus club = new Bus("club", Speaks.OPENLCB, 0, 0, "", NOWHERE);
    Chain east =
        new Chain("east", 0, PIXEL, 80, 80, 24, Supply.UNSAID, Cable.UNSAID, List.of(), NOWHERE);
    Chain west =
        new Chain(
            "west", 1, FOUR_CHANNEL, 33, 33, 9, Supply.UNSAID, Cable.UNSAID, List.of(), NOWHERE);
    List<State> states = kind(2, 4, 3).states();
    List<Answer> numbers = kind(2, 4, 3).answers();
    List<Answer> two = List.of(new Answer(0, 0), new Answer(5, 2), new Answer(7, 2));
    Kind plain = commanded(new Way.AspectNumber(), states, numbers, Otherwise.UNSAID);
    Kind keeping = commanded(new Way.AspectNumber(), states, two, Otherwise.KEEP);
    Kind binary =
        commanded(
            new Way.BinaryCoded(3, true, true, 3 > 1 ? Way.BinaryCoded.USUAL_SETTLE : 0),
            states,
            two,
            Otherwise.MOST_RESTRICTIVE);
    Kind outputs = commanded(new Way.OnePerOutput(2), states, numbers, Otherwise.UNSAID);
    Kind named = commanded(new Way.Topic(true), states, numbers, Otherwise.UNSAID);
    Kind event = commanded(new Way.Event(), states, numbers, Otherwise.UNSAID);
    List<Unit> units = new ArrayList<>();
    add(units, plain, east, 0, new Command(DCC, List.of(1), "", List.of()));
    add(units, keeping, east, 2, new Command(DCC, List.of(2), "", List.of()));
    add(units, plain, east, 4, new Command(yard, List.of(300), "", List.of()));
    add(units, binary, east, 7, new Command(DCC, List.of(11, 12, 13), "", List.of()));
    add(units, binary, east, 9, new Command(DCC, List.of(20, 2048, 5), "", List.of()));
    add(units, outputs, east, 11, new Command(DCC, List.of(2047, 2048), "", List.of()));
    add(units, named, east, 13, new Command(net, List.of(), "brackwater/home", List.of()));
    add(units, named, east, 15, new Command(net, List.of(), "brackwater/étang", List.of()));
    long first = 0x0101_0200_0100_0400L;
    for (int i = 0; i < 3; i++) {
      long base = first + 256L * i;
      List<Long> events = List.of(base, base + 1, base + 2, base + 3);
      add(units, event, west, 2 * i, new Command(club, List.of(), "", events));
    }
    List<Long> odd = List.of(0x0501_0101_2260_0000L, -1L, 0L, 0x0501_0101_2260_0009L);
    add(units, event, west, 7, new Command(club, List.of(), "", odd));
    return controller(List.of(east, west), units);
  }

  /** Two signals of which the second waits for trains; lamps that flash in turn; a dim night. */
  static Controller everyLight() {
    Chain main =
        new Chain("main", 0, PIXEL, 80, 20, 5, Supply.UNSAID, Cable.UNSAID, List.of(), NOWHERE);
    List<State> states = new ArrayList<>();
    for (String late : List.of("flashing", "flashing-late")) {
      List<Display> lit = List.of(new Display("red", "flashing"), new Display("red", late));
      states.add(new State(late, states.size(), lit, lit, null));
    }
    List<Answer> numbers = List.of(new Answer(0, 0), new Answer(1, 1));
    List<Unit> units = new ArrayList<>();
    for (boolean onApproach : new boolean[] {false, true}) {
      Kind kind =
          new Kind(
              "form",
              List.of(),
              List.of(),
              2,
              states,
              0,
              new Way.AspectNumber(),
              numbers,
              onApproach,
              List.of(),
              List.of(),
              Otherwise.UNSAID);
      int place = units.size();
      add(units, kind, main, 3 * place, new Command(DCC, List.of(1 + place), "", List.of()));
    }
    return controller(List.of(main), units);
  }

  /**
   * A filament lamp that is dark or red, steady or flashing, and a searchlight whose vane has red
   * in its middle; both answer to address 1. Full red is 255.
   */
  static Controller everyGlow() {
    return glowing(List.of(new Glow(true, ""), new Glow(false, "red")), 100, FOUR_CHANNEL);
  }

  /**
   * The same two LEDs of other makes, once on a chain of each part: the first answers to address 1,
   * the next to 2.
   *
   * @param night percent of full drive
   */
  static Controller glowing(List<Glow> glows, int night, Part... parts) {
    List<State> states = new ArrayList<>();
    for (Display lamp :
        List.of(Display.DARK, Display.steady("red"), new Display("red", "flashing"))) {
      Display vane = Display.steady(List.of("green", "yellow", "red").get(states.size()));
      List<Display> lit = List.of(lamp, vane);
      states.add(new State("Aspect " + states.size(), states.size(), lit, lit, null));
    }
    Kind kind =
        new Kind(
            "form",
            List.of(),
            List.of(),
            2,
            states,
            0,
            new Way.AspectNumber(),
            List.of(new Answer(0, 0), new Answer(1, 1), new Answer(2, 2)),
            false,
            glows,
            List.of(),
            Otherwise.UNSAID);
    List<Chain> chains = new ArrayList<>();
    List<Unit> units = new ArrayList<>();
    for (Part part : parts) {
      int index = chains.size();
      Chain chain =
          new Chain(
              List.of("main", "branch").get(index),
              index,
              part,
              100,
              night,
              2,
              Supply.UNSAID,
              Cable.UNSAID,
              List.of(),
              NOWHERE);
      chains.add(chain);
      add(units, kind, chain, 0, new Command(DCC, List.of(1 + index), "", List.of()));
    }
    return controller(chains, units);
  }

  private static void add(List<Unit> units, Kind kind, Chain chain, int led, Command command) {
    String name = "B" + (units.size() + 1) * 2;
    units.add(new Unit(name, name, kind, chain, led, command, Dimming.NONE, List.of(), NOWHERE));
  }
}
