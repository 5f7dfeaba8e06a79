package dev.doublet.table;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.table.TableBytes.Pieces;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Look;
import dev.doublet.table.TableModel.Mode;
import dev.doublet.table.TableModel.State;
import dev.doublet.table.TableModel.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Unpacks the bytes of a table, and refuses bytes that break any rule of the format. Written from
 * table.md beside it alone: it shares no code with {@link TableWriter}, so that a mistake in one is
 * seen by the other. What the indices of its buses say is read by {@link IndexDecoder}. It is long
 * because every rule of the page but those of indices is kept here.
 */
public final class TableDecoder {
  private static final int HEADER = 30;
  private static final int BUS = 11;
  private static final List<Speaks> SPEAKS = List.of(Speaks.DCC, Speaks.MQTT, Speaks.OPENLCB);
  private static final List<Mode> MODES =
      List.of(Mode.ASPECT_NUMBER, Mode.BINARY_CODED, Mode.ONE_PER_OUTPUT, Mode.TOPIC, Mode.EVENT);
  private static final int[] COUNTS = {13, 14, 15, 17, 28};
  private static final int[] SIZES = {9, 4, 2, 11, 1};
  private static final List<String> NAMES =
      List.of("chains", "rhythms", "flashing", "kinds", "cycles");

  private final TableBytes table;
  private final int[] sections = new int[COUNTS.length];
  private int servos;

  private TableDecoder(TableBytes table) {
    this.table = table;
  }

  /**
   * A table unpacked.
   *
   * @param model what it holds
   * @param length its bytes
   * @param pieces for each section, where its pieces begin and how many bytes each takes
   */
  record Decoded(TableModel model, int length, Pieces pieces) {}

  /**
   * What a table holds.
   *
   * @throws TableFault when the bytes are not a sound table
   */
  public static TableModel decode(byte[] bytes) throws TableFault {
    return unpack(bytes).model();
  }

  static Decoded unpack(byte[] bytes) throws TableFault {
    TableBytes table = TableBytes.open(bytes);
    return new Decoded(new TableDecoder(table).model(), bytes.length, table.pieces());
  }

  private TableModel model() throws TableFault {
    int needs = table.u8(5);
    table.note("header", 0, HEADER);
    int busCount = table.u8(12);
    int colours = table.u8(16);
    sections(busCount);
    List<TableModel.Bus> buses = new ArrayList<>();
    for (int i = 0; i < busCount; i++) {
      buses.add(bus(HEADER + BUS * i));
    }
    List<TableModel.Rhythm> rhythms = new ArrayList<>();
    for (int i = 0; i < table.u8(14); i++) {
      rhythms.add(rhythm(sections[1] + 4 * i));
    }
    List<TableModel.Flash> flashing = new ArrayList<>();
    for (int i = 0; i < table.u8(15); i++) {
      flashing.add(flash(sections[2] + 2 * i, colours, rhythms.size()));
    }
    int lights = colours + flashing.size();
    TableFault.require(lights <= 255, "more colours and flashing colours than 255");
    SortedMap<Integer, Integer> each = lightsOfEach();
    SortedMap<Integer, Kind> kinds = new TreeMap<>();
    for (int i = 0; i < table.u8(17); i++) {
      kinds.put(i, kind(sections[3] + 11 * i, each.getOrDefault(i, 1), buses, lights, colours));
    }
    List<Integer> cycles = cycles(kinds.size());
    List<TableModel.Chain> chains = new ArrayList<>();
    List<Unit> hung = new ArrayList<>();
    int leds = 0;
    for (int i = 0; i < table.u8(13); i++) {
      int place = sections[0] + 9 * i;
      int before = hung.size();
      TableFault.require(table.u16(place + 7) == before, "a chain has another first signal");
      hang(place, leds, cycles, hung);
      TableModel.Chain chain = chain(place, colours, hung.subList(before, hung.size()));
      leds += chain.leds();
      chains.add(chain);
    }
    TableFault.require(leds <= 65_535, "more LEDs than can be numbered");
    TableFault.require(hung.size() == table.u16(10), "chains hold another number of signals");
    IndexDecoder indices = new IndexDecoder(table, kinds, cycles, hung);
    for (int i = 0; i < busCount; i++) {
      indices.bus(i, HEADER + BUS * i);
    }
    List<Unit> units = indices.units();
    List<Kind> named = List.copyOf(kinds.values());
    boolean settles = named.stream().anyMatch(k -> k.settling() > 0);
    boolean numerals = named.stream().anyMatch(k -> k.look().numeral().count() > 0);
    boolean glows = named.stream().anyMatch(k -> !k.look().glows().isEmpty());
    boolean topics = buses.stream().anyMatch(b -> b.speaks() == Speaks.MQTT);
    boolean events = buses.stream().anyMatch(b -> b.speaks() == Speaks.OPENLCB);
    boolean levels = units.stream().anyMatch(u -> u.level() > 0);
    int needed = (settles ? 1 : 0) + (glows ? 2 : 0) + (topics ? 4 : 0) + (events ? 8 : 0);
    needed += (levels ? 16 : 0) + (each.isEmpty() ? 0 : 32) + (numerals ? 64 : 0);
    List<TableModel.Servo> servos = servos(named, units);
    needed += servos.isEmpty() ? 0 : 128;
    TableFault.require(needs == needed, "it says that it needs something else");
    return new TableModel(
        table.u16(8), colours, buses, chains, rhythms, flashing, named, units, servos);
  }

  private void sections(int buses) throws TableFault {
    table.note("buses", HEADER, BUS * buses);
    int at = HEADER + BUS * buses;
    for (int i = 0; i < COUNTS.length; i++) {
      sections[i] = table.u16(18 + 2 * i);
      TableFault.require(sections[i] == at, "a section begins elsewhere");
      table.note(NAMES.get(i), at, SIZES[i] * table.u8(COUNTS[i]));
      at += SIZES[i] * table.u8(COUNTS[i]);
    }
    servos = at;
    if (table.u8(29) > 0) {
      table.note("servos", at, 6 * table.u8(29));
    }
    at += 6 * table.u8(29);
    TableFault.require(
        table.u8(14) <= 16 && table.u8(17) <= 128 && table.u8(28) <= 128 && table.u16(10) <= 8192,
        "more rhythms, kinds, cycles or signals than can be numbered");
    table.piecesFrom(at);
  }

  private List<TableModel.Servo> servos(List<Kind> kinds, List<Unit> units) throws TableFault {
    List<TableModel.Servo> all = new ArrayList<>();
    int last = -1;
    for (int place = servos; place < servos + 6 * table.u8(29); place += 6) {
      int channel = table.u8(place);
      TableFault.require(channel > last, "servos are out of order");
      last = channel;
      int unit = table.u16(place + 1);
      TableFault.require(unit < units.size(), "a servo moves a signal that is not there");
      int step = table.u8(place + 3);
      TableFault.require(step > 0, "a servo never moves");
      int states = kinds.get(units.get(unit).kind()).look().states().size();
      int at = table.u16(place + 4);
      table.piece("pulses", at, 2 * states);
      List<Integer> pulses = new ArrayList<>();
      for (int state = 0; state < states; state++) {
        int pulse = table.u16(at + 2 * state);
        TableFault.require(pulse >= 500 && pulse <= 2500, "a pulse that no servo takes");
        pulses.add(pulse);
      }
      all.add(new TableModel.Servo(channel, unit, step, pulses));
    }
    return all;
  }

  private TableModel.Bus bus(int place) throws TableFault {
    int carries = table.u8(place);
    int aspectBits = table.u8(place + 1);
    if (carries == 0 || carries == 0x80) {
      TableFault.require(
          aspectBits == 5 || aspectBits == 8, "a DCC bus carries neither 5 nor 8 bits");
      return new TableModel.Bus(Speaks.DCC, aspectBits, carries == 0 ? 1 : 0);
    }
    TableFault.require(carries < SPEAKS.size(), "a bus carries something unknown");
    TableFault.require(aspectBits == 0, "a bus other than DCC counts bits");
    return new TableModel.Bus(SPEAKS.get(carries), 0, 0);
  }

  /** Adds the units of a chain, without their keys and levels. */
  private void hang(int chain, int firstLed, List<Integer> cycles, List<Unit> hung)
      throws TableFault {
    List<Integer> leds = new ArrayList<>();
    for (int i = 0; i < table.u8(17); i++) {
      leds.add(table.u8(sections[3] + 11 * i));
    }
    new PlaceDecoder(table, leds, cycles)
        .hang(table.u16(chain + 5), firstLed, table.u16(chain), hung);
  }

  /** How many lights each LED has of the kinds of which it has one for each channel. */
  private SortedMap<Integer, Integer> lightsOfEach() throws TableFault {
    SortedMap<Integer, Integer> each = new TreeMap<>();
    for (int i = 0; i < table.u8(17); i++) {
      if ((table.u8(sections[3] + 11 * i + 10) & 0x40) != 0) {
        each.put(i, 0);
      }
    }
    for (int i = 0; i < table.u8(13) && !each.isEmpty(); i++) {
      int chain = sections[0] + 9 * i;
      int channels = table.u8(chain + 2) & 0x3F;
      List<Unit> units = new ArrayList<>();
      hang(chain, 0, cycles(table.u8(17)), units);
      for (Unit unit : units) {
        if (each.containsKey(unit.kind())) {
          int before = each.put(unit.kind(), channels);
          TableFault.require(
              before == 0 || before == channels, "a kind of chips hangs on LEDs of two sorts");
        }
      }
    }
    TableFault.require(
        each.values().stream().allMatch(channels -> channels > 1),
        "a kind of chips hangs nowhere, or where LEDs have one channel");
    return each;
  }

  private TableModel.Chain chain(int place, int colours, List<Unit> hung) throws TableFault {
    int channels = table.u8(place + 2) & 0x3F;
    boolean levels = (table.u8(place + 2) & 0x40) != 0;
    boolean night = table.u8(place + 2) > 0x7F;
    TableFault.require(
        channels >= 1 && channels <= 4, "an LED has none or more than four channels");
    TableFault.require(
        !night && !levels || colours > 0, "a palette of no colour has another for the night");
    int palette = table.u16(place + 3);
    int most = 0;
    for (int i = 0; levels && i < hung.size(); i++) {
      int level = table.u8(palette - 1 - i);
      most = Math.max(most, level);
      hung.set(i, new Unit(hung.get(i).kind(), hung.get(i).led(), List.of(), level));
    }
    TableFault.require(levels == most > 0, "levels are told of, and there is one");
    int size = colours * channels;
    int step = night ? 2 * size : size;
    int before = levels ? hung.size() : 0;
    table.piece("palettes", palette - before, before + (most + 1) * step);
    List<Integer> day = new ArrayList<>();
    List<Integer> dark = new ArrayList<>();
    for (int level = 0; level <= most; level++) {
      day.addAll(table.list(palette + level * step, size));
      dark.addAll(table.list(palette + level * step + size, night ? size : 0));
    }
    return new TableModel.Chain(table.u16(place), channels, day, dark);
  }

  private TableModel.Rhythm rhythm(int place) throws TableFault {
    TableFault.require(table.u16(place) > 0 && table.u16(place + 2) > 0, "a rhythm takes no time");
    return new TableModel.Rhythm(table.u16(place), table.u16(place + 2));
  }

  private TableModel.Flash flash(int place, int colours, int rhythms) throws TableFault {
    int colour = table.u8(place);
    int rhythm = table.u8(place + 1) & 0x7F;
    TableFault.require(
        colour >= 1 && colour <= colours, "a light has a colour outside the palette");
    TableFault.require(rhythm < rhythms, "a light has an unknown rhythm");
    return new TableModel.Flash(colour, rhythm, table.u8(place + 1) > 0x7F);
  }

  private List<Integer> cycles(int kinds) throws TableFault {
    List<Integer> cycles = table.list(sections[4], table.u8(28));
    for (int i = 0; i < cycles.size(); i++) {
      int to = cycles.get(i) - 128;
      TableFault.require(
          to < 0 ? cycles.get(i) < kinds : to < i && cycles.get(to) < 128,
          "a cycle leads to no kind");
    }
    TableFault.require(
        cycles.isEmpty() || cycles.get(cycles.size() - 1) >= 128, "a cycle has no end");
    return cycles;
  }

  private Kind kind(int place, int each, List<TableModel.Bus> buses, int lights, int colours)
      throws TableFault {
    Look look = look(place, each, lights, colours);
    int flags = table.u8(place + 6);
    TableFault.require((flags & 7) < MODES.size(), "a kind has an unknown mode");
    Mode mode = MODES.get(flags & 7);
    int addresses = table.u8(place + 7);
    int rest = table.u8(place + 8) & 0x7F;
    int bus = table.u8(place + 9);
    int settling = table.u8(place + 10) & 0x3F;
    TableFault.require(
        bus < buses.size() && buses.get(bus).speaks() == mode.speaks(), "a kind's bus differs");
    TableFault.require(
        mode.speaks() == Speaks.DCC == addresses > 0, "a kind has a wrong number of addresses");
    TableFault.require(
        mode != Mode.ASPECT_NUMBER || addresses == 1, "an aspect number has one address");
    TableFault.require(addresses <= 32, "a kind has more than 32 addresses");
    TableFault.require(
        mode != Mode.BINARY_CODED || addresses <= 4, "more than four addresses code a number");
    TableFault.require(rest < look.states().size(), "a kind rests at a state it has not");
    boolean byName = (flags & 0x20) != 0;
    TableFault.require(!byName || mode == Mode.TOPIC, "only topics carry names");
    TableFault.require(
        (flags & 0x18) == 0 || mode == Mode.BINARY_CODED, "only numbers in bits have bits");
    TableFault.require(settling == 0 || mode == Mode.BINARY_CODED, "only bits settle");
    boolean naming = table.u8(place + 1) > 0x7F;
    int answers = table.u16(place + 4);
    TableFault.require(!byName || answers > 0 && !naming, "names have no checksums");
    return new Kind(
        look,
        mode,
        bus,
        addresses,
        rest,
        (flags & 0x08) != 0,
        (flags & 0x10) != 0,
        settling,
        (flags & 0x40) != 0,
        false,
        (flags & 0x80) != 0,
        byName ? List.of() : answers(answers, naming, look),
        byName ? names(answers, look) : List.of());
  }

  /**
   * A look.
   *
   * @param each how many lights each of its LEDs has
   */
  private Look look(int kind, int each, int lights, int colours) throws TableFault {
    int leds = table.u8(kind) * each;
    int count = table.u8(kind + 1) & 0x7F;
    boolean glowing = table.u8(kind + 10) > 0x7F;
    int place = table.u16(kind + 2);
    TableFault.require(count > 0, "a look has no state");
    TableFault.require(leds > 0, "a look has no LED");
    TableFault.require(leds <= 255, "a look has more lights than can be numbered");
    boolean numeral = table.u8(kind + 8) > 0x7F;
    TableModel.Part part =
        numeral ? new TableModel.Part(table.u8(place), table.u8(place + 1)) : TableModel.Part.NONE;
    TableFault.require(
        !numeral
            || leds == table.u8(kind) && part.count() > 0 && part.first() + part.count() <= leds,
        "the LEDs of a numeral are not among those of its signal");
    int behind = place + (numeral ? numeralSize(place, count, leds) : count * leds);
    table.piece("looks", place - count, behind - place + count + (glowing ? leds : 0));
    List<State> states = new ArrayList<>();
    for (int state = 0; state < count; state++) {
      List<Integer> shown =
          numeral ? numeral(place, count, leds, state) : table.list(place + state * leds, leds);
      TableFault.require(
          shown.stream().allMatch(light -> light <= lights), "a state shows an unknown light");
      states.add(new State(table.u8(place - count + state), shown));
    }
    List<TableModel.Glow> glows = new ArrayList<>();
    for (int glow : table.list(behind, glowing ? leds : 0)) {
      TableFault.require((glow & 0x7F) <= colours, "a vane passes a colour outside the palette");
      glows.add(new TableModel.Glow(glow > 0x7F, glow & 0x7F));
    }
    TableFault.require(
        glowing == glows.stream().anyMatch(g -> g.filament() || g.middle() > 0),
        "a look tells of filaments and vanes, and has none");
    return new Look(table.u8(kind), states, glows, part);
  }

  /** The bytes of the pictures of a look with a numeral. */
  private int numeralSize(int place, int states, int leds) throws TableFault {
    int width = table.u8(place + 1);
    return 4 + states + table.u8(place + 2) * (1 + leds - width) + table.u8(place + 3) * width;
  }

  /** The picture of a state of a look with a numeral. */
  private List<Integer> numeral(int place, int states, int leds, int state) throws TableFault {
    int first = table.u8(place);
    int width = table.u8(place + 1);
    int rows = table.u8(place + 2);
    int row = table.u8(place + 4 + state);
    TableFault.require(row < rows, "a state shows a row unknown");
    int at = place + 4 + states + row * (1 + leds - width);
    int figure = state - table.u8(at) & 0xFF;
    TableFault.require(figure < table.u8(place + 3), "a state shows a figure unknown");
    int figures = place + 4 + states + rows * (1 + leds - width);
    List<Integer> lights = new ArrayList<>(table.list(at + 1, leds - width));
    lights.addAll(first, table.list(figures + figure * width, width));
    return lights;
  }

  private List<Answer> answers(int place, boolean naming, Look look) throws TableFault {
    int states = look.states().size();
    TableFault.require(place > 0 || !naming, "numbers of states name states");
    int count = place == 0 ? states : table.u8(place);
    SortedMap<Integer, Answer> answers = new TreeMap<>();
    for (int i = 0; i < count; i++) {
      int value = place == 0 ? look.states().get(i).number() : table.u8(place + 1 + i);
      int state = naming ? table.u8(place + 1 + count + i) : i;
      TableFault.require(state < states, "an answer calls up a state unknown");
      answers.putIfAbsent(value, new Answer(value, state));
    }
    if (place > 0) {
      table.piece("answers", place, 1 + (naming ? 2 * count : count));
      TableFault.require(answers.size() == count, "a value has two answers");
    }
    return List.copyOf(answers.values());
  }

  private List<Integer> names(int place, Look look) throws TableFault {
    int states = look.states().size();
    table.piece("names", place, 4 * states);
    List<Integer> names = new ArrayList<>();
    for (int i = 0; i < states; i++) {
      names.add((int) table.number(place + 4 * i, 4));
    }
    return names;
  }
}
