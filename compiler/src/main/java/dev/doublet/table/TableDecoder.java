package dev.doublet.table;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Mode;
import dev.doublet.table.TableFault.Reason;
import dev.doublet.table.TableModel.KeyForm;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Look;
import dev.doublet.table.TableModel.State;
import dev.doublet.table.TableModel.Unit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Unpacks the bytes of a table, and refuses bytes that break any rule of the format. Written from
 * DEVELOPERS.md, "The table, byte by byte", alone: it shares no code with {@link TableWriter}, so
 * that a mistake in one is seen by the other. It is long because it is that whole page.
 */
public final class TableDecoder {
  private static final int HEADER = 18;
  private static final int CHECKSUM = 4;
  private static final List<Speaks> SPEAKS = List.of(Speaks.DCC, Speaks.MQTT, Speaks.OPENLCB);
  private static final List<Mode> MODES =
      List.of(Mode.ASPECT_NUMBER, Mode.BINARY_CODED, Mode.ONE_PER_OUTPUT, Mode.TOPIC, Mode.EVENT);

  private final byte[] bytes;
  private final int length;
  private final SortedMap<String, SortedMap<Integer, Integer>> pieces = new TreeMap<>();
  private int at = HEADER;

  private TableDecoder(byte[] bytes) {
    this.bytes = bytes;
    this.length = bytes.length;
  }

  /**
   * One entry of a table: units that continue one another.
   *
   * @param at where it begins
   * @param first the first unit's place
   * @param count how many units
   * @param mixed true when it names each unit's kind
   * @param step for events: how far each unit's base lies beyond the one before it
   */
  record Entry(int at, int first, int count, boolean mixed, int step) {}

  /**
   * A table unpacked.
   *
   * @param model what it holds
   * @param length its bytes
   * @param entries how its units are folded
   * @param pieces for each section, where its pieces begin and how many bytes each takes
   */
  record Decoded(
      TableModel model,
      int length,
      List<Entry> entries,
      SortedMap<String, SortedMap<Integer, Integer>> pieces) {}

  /**
   * What a table holds.
   *
   * @throws TableFault when the bytes are not a sound table
   */
  public static TableModel decode(byte[] bytes) throws TableFault {
    return unpack(bytes).model();
  }

  static Decoded unpack(byte[] bytes) throws TableFault {
    refuseStrangers(bytes);
    return new TableDecoder(bytes.clone()).decoded();
  }

  private static void refuseStrangers(byte[] bytes) throws TableFault {
    if (bytes.length < HEADER + CHECKSUM) {
      throw new TableFault(
          Reason.TOO_SHORT, String.format(Locale.ROOT, "%d bytes are too few", bytes.length));
    }
    if (bytes[0] != 'D' || bytes[1] != 'B' || bytes[2] != 'L' || bytes[3] != 'T') {
      throw new TableFault(Reason.NOT_A_TABLE, "the first four bytes are not DBLT");
    }
    if (bytes[4] != 1 && bytes[4] != 2) {
      throw new TableFault(
          Reason.OTHER_VERSION,
          String.format(
              Locale.ROOT,
              "format version %d; this reader knows versions 1 and 2",
              bytes[4] & 0xFF));
    }
    int length = (bytes[6] & 0xFF) + 256 * (bytes[7] & 0xFF);
    if (length != bytes.length) {
      throw new TableFault(
          Reason.WRONG_LENGTH,
          String.format(
              Locale.ROOT, "the header says %d bytes, and there are %d", length, bytes.length));
    }
    int stored = 0;
    for (int i = 1; i <= CHECKSUM; i++) {
      stored = stored << 8 | bytes[length - i] & 0xFF;
    }
    if (stored != Checksum.of(bytes, length - CHECKSUM)) {
      throw new TableFault(Reason.WRONG_CHECKSUM, "the checksum does not fit; some byte is wrong");
    }
  }

  private Decoded decoded() throws TableFault {
    note("header", 0, HEADER);
    int colours = u8(17);
    List<TableModel.Bus> buses = new ArrayList<>();
    require(
        u8(12) <= 127 && u8(14) <= 127 && colours <= 127,
        "more than 127 buses, rhythms or colours");
    for (int i = u8(12); i > 0; i--) {
      buses.add(bus());
    }
    List<TableModel.Chain> chains = new ArrayList<>();
    for (int i = u8(13); i > 0; i--) {
      chains.add(chain(colours));
    }
    int leds = chains.stream().mapToInt(TableModel.Chain::leds).sum();
    require(leds <= 65_535, "more LEDs than can be numbered");
    List<TableModel.Rhythm> rhythms = new ArrayList<>();
    for (int i = u8(14); i > 0; i--) {
      rhythms.add(rhythm());
    }
    List<TableModel.Light> lights = new ArrayList<>();
    for (int i = u8(15); i > 0; i--) {
      lights.add(light(colours, rhythms.size()));
    }
    require(u8(5) == fewestBits(lights.size()), "lights are packed in another number of bits");
    List<Kind> kinds = new ArrayList<>();
    for (int i = u8(16); i > 0; i--) {
      kinds.add(kind(buses, lights.size(), colours));
    }
    List<Entry> entries = new ArrayList<>();
    List<Unit> units = units(kinds, entries);
    refuseBetweenChains(chains, kinds, units);
    TableModel model =
        new TableModel(u16(8), colours, buses, chains, rhythms, lights, kinds, units);
    require(model.version() == u8(4), "a table of version 2 that version 1 could say");
    note("checksum", length - CHECKSUM, CHECKSUM);
    return new Decoded(model, length, entries, pieces);
  }

  private TableModel.Bus bus() throws TableFault {
    int place = take("buses", 3);
    require(u8(place) < SPEAKS.size(), "a bus carries something unknown");
    Speaks speaks = SPEAKS.get(u8(place));
    int aspectBits = u8(place + 1);
    int firstDecoder = u8(place + 2);
    if (speaks == Speaks.DCC) {
      require(aspectBits == 5 || aspectBits == 8, "a DCC bus carries neither 5 nor 8 bits");
      require(firstDecoder <= 1, "decoders are counted neither from 0 nor from 1");
    } else {
      require(aspectBits == 0 && firstDecoder == 0, "a bus other than DCC counts decoders");
    }
    return new TableModel.Bus(speaks, aspectBits, firstDecoder);
  }

  private TableModel.Chain chain(int colours) throws TableFault {
    int place = take("chains", 5);
    boolean night = more(place + 2);
    int channels = low(place + 2);
    require(channels >= 1 && channels <= 4, "an LED has none or more than four channels");
    int palette = u16(place + 3);
    List<Integer> drives = new ArrayList<>();
    for (int i = 0; i < colours * channels; i++) {
      drives.add(u8(palette + i));
    }
    List<Integer> nightly = new ArrayList<>();
    for (int i = 0; night && i < colours * channels; i++) {
      nightly.add(u8(palette + drives.size() + i));
    }
    require(night == !nightly.isEmpty(), "a palette of no colour has another for the night");
    note("palettes", palette, drives.size() + nightly.size());
    return new TableModel.Chain(u16(place), channels, drives, nightly);
  }

  private TableModel.Rhythm rhythm() throws TableFault {
    int place = take("rhythms", 4);
    require(u16(place) > 0 && u16(place + 2) > 0, "a rhythm takes no time");
    return new TableModel.Rhythm(u16(place), u16(place + 2));
  }

  private TableModel.Light light(int colours, int rhythms) throws TableFault {
    int place = take("lights", 2);
    require(u8(place) >= 1 && u8(place) <= colours, "a light has a colour outside the palette");
    int rhythm = low(place + 1);
    boolean darkFirst = more(place + 1);
    require(rhythm <= rhythms, "a light has an unknown rhythm");
    require(rhythm > 0 || !darkFirst, "a steady light starts dark");
    return new TableModel.Light(u8(place), rhythm, darkFirst);
  }

  private static int fewestBits(int lights) {
    int bits = 1;
    while (1 << bits <= lights) {
      bits++;
    }
    return bits;
  }

  private Kind kind(List<TableModel.Bus> buses, int lights, int colours) throws TableFault {
    int place = take("kinds", 8);
    Look look = look(u16(place), lights, colours);
    int flags = u8(place + 2);
    require((flags & 7) < MODES.size(), "a kind has an unknown mode");
    Mode mode = MODES.get(flags & 7);
    int bus = low(place + 3);
    require(bus < buses.size() && buses.get(bus).speaks() == speaks(mode), "a kind's bus differs");
    int addresses = u8(place + 4);
    boolean dcc = speaks(mode) == Speaks.DCC;
    require(dcc == addresses > 0, "a kind has a wrong number of addresses");
    require(mode != Mode.ASPECT_NUMBER || addresses == 1, "an aspect number has one address");
    require(mode != Mode.BINARY_CODED || addresses <= 4, "more than four addresses code a number");
    int rest = u8(place + 5);
    require(rest < look.states().size(), "a kind rests at a state it has not");
    boolean byName = (flags & 0x20) != 0;
    boolean listed = (flags & 0x80) != 0;
    require(!byName || mode == Mode.TOPIC, "only topics carry names");
    require((flags & 0x18) == 0 || mode == Mode.BINARY_CODED, "only numbers in bits have bits");
    require(!listed || mode != Mode.TOPIC, "topics are not listed");
    int answers = u16(place + 6);
    return new Kind(
        look,
        mode,
        bus,
        addresses,
        rest,
        (flags & 0x08) != 0,
        (flags & 0x10) != 0,
        (flags & 0x40) != 0,
        listed,
        more(place + 3),
        byName || listed && mode == Mode.EVENT ? List.of() : answers(answers, look),
        byName ? names(answers, look) : List.of());
  }

  private static Speaks speaks(Mode mode) {
    return switch (mode) {
      case ASPECT_NUMBER, BINARY_CODED, ONE_PER_OUTPUT -> Speaks.DCC;
      case TOPIC -> Speaks.MQTT;
      case EVENT -> Speaks.OPENLCB;
    };
  }

  private Look look(int place, int lights, int colours) throws TableFault {
    int leds = u8(place);
    boolean glowing = more(place + 1);
    int count = low(place + 1);
    require(count > 0, "a look has no state");
    int bits = u8(5);
    int pictures = place + 2 + count;
    List<State> states = new ArrayList<>();
    for (int state = 0; state < count; state++) {
      List<Integer> shown = new ArrayList<>();
      for (int led = 0; led < leds; led++) {
        int light = bitsAt(pictures, (state * leds + led) * bits, bits);
        require(light <= lights, "a state shows an unknown light");
        shown.add(light);
      }
      states.add(new State(u8(place + 2 + state), shown));
    }
    int end = pictures + (count * leds * bits + 7) / 8;
    List<TableModel.Glow> glows = new ArrayList<>();
    for (int led = 0; glowing && led < leds; led++) {
      int middle = u8(end + led) & 0x7F;
      require(middle <= colours, "a vane passes a colour outside the palette");
      glows.add(new TableModel.Glow(more(end + led), middle));
    }
    require(
        glowing == glows.stream().anyMatch(g -> g.filament() || g.middle() > 0),
        "a look tells of filaments and vanes, and has none");
    note("looks", place, end - place + glows.size());
    return new Look(leds, states, glows);
  }

  /** A number of so many bits, the lowest first. */
  private int bitsAt(int place, int first, int bits) throws TableFault {
    int value = 0;
    for (int i = 0; i < bits; i++) {
      int bit = first + i;
      value |= (u8(place + bit / 8) >> bit % 8 & 1) << i;
    }
    return value;
  }

  private List<Answer> answers(int place, Look look) throws TableFault {
    if (place == 0) {
      return look.byNumber();
    }
    if (place == 1) {
      return look.byPlace();
    }
    List<Answer> answers = new ArrayList<>();
    int count = u8(place);
    int last = -1;
    for (int i = 0; i < count; i++) {
      Answer answer = new Answer(u8(place + 1 + 2 * i), u8(place + 2 + 2 * i));
      require(answer.value() > last, "answers are out of order");
      require(answer.state() < look.states().size(), "an answer calls up a state unknown");
      last = answer.value();
      answers.add(answer);
    }
    note("answers", place, 1 + 2 * count);
    return answers;
  }

  private List<Integer> names(int place, Look look) throws TableFault {
    List<Integer> names = new ArrayList<>();
    for (int i = 0; i < look.states().size(); i++) {
      names.add((int) number(place + 4 * i, 4));
    }
    note("names", place, 4 * names.size());
    return names;
  }

  private static void refuseBetweenChains(
      List<TableModel.Chain> chains, List<Kind> kinds, List<Unit> units) throws TableFault {
    int[] chainOf = new int[65_536];
    int leds = 0;
    for (int chain = 0; chain < chains.size(); chain++) {
      Arrays.fill(chainOf, leds, leds + chains.get(chain).leds(), chain);
      leds += chains.get(chain).leds();
    }
    for (Unit unit : units) {
      int last = unit.led() + kinds.get(unit.kind()).look().leds() - 1;
      require(last < leds, "a signal reaches beyond the last LED");
      require(
          last < unit.led() || chainOf[last] == chainOf[unit.led()],
          "a signal reaches from one chain into the next");
    }
  }

  private List<Unit> units(List<Kind> kinds, List<Entry> entries) throws TableFault {
    List<Unit> units = new ArrayList<>();
    int count = u16(10);
    while (units.size() < count) {
      int start = at;
      int head = u8(take("entries", 3));
      int many = head & 0x7F;
      boolean mixed = head > 0x7F;
      require(many > 0 && units.size() + many <= count, "entries hold another number of signals");
      int[] places = new int[many];
      for (int i = 0; i < many; i++) {
        places[i] = mixed || i == 0 ? u8(take("entries", 1)) : places[0];
        require(places[i] < kinds.size(), "a signal is of an unknown kind");
        require(
            kinds.get(places[i]).keyForm() == kinds.get(places[0]).keyForm(),
            "an entry holds signals with unlike keys");
      }
      entries.add(entry(kinds, places, start, mixed, units));
    }
    return units;
  }

  /** Reads the keys of an entry, and adds its units. */
  private Entry entry(List<Kind> kinds, int[] places, int start, boolean mixed, List<Unit> units)
      throws TableFault {
    int first = units.size();
    int led = u16(start + 1);
    KeyForm form = kinds.get(places[0]).keyForm();
    long key = 0;
    int step = 0;
    if (form == KeyForm.ADDRESS) {
      key = u16(take("entries", 2));
      require(key < TableModel.ADDRESSES, "an address has more than eleven bits");
    } else if (form == KeyForm.EVENT) {
      key = number(take("entries", 8), 8);
      step = u16(take("entries", 2));
    }
    for (int place : places) {
      Kind kind = kinds.get(place);
      List<Long> keys =
          switch (form) {
            case ADDRESS, EVENT -> List.of(key);
            case TOPIC -> List.of(number(take("entries", 4), 4));
            case LIST -> list(u16(take("entries", 2)), kind);
          };
      units.add(new Unit(place, led, keys));
      led += kind.look().leds();
      key = form == KeyForm.EVENT ? key + step : (key + kind.addresses()) % TableModel.ADDRESSES;
    }
    return new Entry(start, first, places.length, mixed, step);
  }

  private List<Long> list(int place, Kind kind) throws TableFault {
    boolean events = kind.mode() == Mode.EVENT;
    int count = events ? kind.look().states().size() : kind.addresses();
    int size = events ? 8 : 2;
    List<Long> keys = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      keys.add(number(place + size * i, size));
      require(events || keys.get(i) < TableModel.ADDRESSES, "an address has over eleven bits");
    }
    note("lists", place, size * count);
    return keys;
  }

  /** Steps over the next bytes, and says where they were. */
  private int take(String section, int size) throws TableFault {
    require(at + size <= length - CHECKSUM, "a section runs into the checksum");
    note(section, at, size);
    at += size;
    return at - size;
  }

  private void note(String section, int place, int size) {
    pieces.computeIfAbsent(section, s -> new TreeMap<>()).put(place, size);
  }

  private int u8(int place) throws TableFault {
    require(place >= 0 && place < length - CHECKSUM, "a place lies outside the table");
    return bytes[place] & 0xFF;
  }

  /** The number in a byte whose top bit says more in version 2; in version 1 it says nothing. */
  private int low(int place) throws TableFault {
    require(u8(4) == 2 || u8(place) <= 127, "a number over 127");
    return u8(place) & 0x7F;
  }

  private boolean more(int place) throws TableFault {
    return u8(place) > 127;
  }

  private int u16(int place) throws TableFault {
    return (int) number(place, 2);
  }

  private long number(int place, int size) throws TableFault {
    long value = 0;
    for (int i = 0; i < size; i++) {
      value |= (long) u8(place + i) << 8 * i;
    }
    return value;
  }

  private static void require(boolean holds, String otherwise) throws TableFault {
    if (!holds) {
      throw new TableFault(Reason.NOT_SOUND, otherwise);
    }
  }
}
