package dev.doublet.table;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.table.TableFault.Reason;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Look;
import dev.doublet.table.TableModel.Unit;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;

/** Packs what a table holds into bytes, as table.md beside this class says. */
public final class TableWriter {
  private static final int VERSION = 3;
  private static final int HEADER = 30;
  private static final int BUS = 11;
  private static final int CHAIN = 9;
  private static final int RHYTHM = 4;
  private static final int FLASH = 2;
  private static final int KIND = 11;
  private static final int SERVO = 6;
  private static final int LONGEST = 65_535;

  /** The bit of a byte that says more than the number in it. */
  private static final int MORE = 0x80;

  /** Of a chain: it has several levels of brightness. */
  private static final int LEVELS = 0x40;

  /** Of a kind: each channel has a light of its own. */
  private static final int CHIPS = 0x40;

  private final TableModel model;
  private final Cycles cycles;
  private final List<List<Unit>> units = new ArrayList<>();
  private final Pool pool;

  private TableWriter(TableModel model) {
    this.model = model;
    for (int chain = 0; chain < model.chains().size(); chain++) {
      int first = model.firstLed(chain);
      int end = first + model.chains().get(chain).leds();
      boolean last = chain + 1 == model.chains().size();
      units.add(
          model.units().stream()
              .filter(u -> u.led() >= first && (u.led() < end || last && u.led() == end))
              .toList());
    }
    this.cycles =
        Cycles.of(units.stream().map(us -> us.stream().map(Unit::kind).toList()).toList());
    this.pool = new Pool(sections()[5] + cycles.bytes().size() + SERVO * model.servos().size());
  }

  /**
   * The bytes of a table.
   *
   * @throws TableFault when there is too much for the format
   */
  public static byte[] write(TableModel model) throws TableFault {
    refuse("buses", model.buses().size(), 255);
    refuse("chains", model.chains().size(), 255);
    refuse("rhythms", model.rhythms().size(), 16);
    refuse("colours and flashing colours", model.colours() + model.flashing().size(), 255);
    refuse("kinds of signal", model.kinds().size(), 128);
    refuse("signals", model.units().size(), 8_192);
    refuse("servos", model.servos().size(), 255);
    refuse("LEDs", model.chains().stream().mapToInt(TableModel.Chain::leds).sum(), LONGEST);
    for (Kind kind : model.kinds()) {
      refuse("LEDs on one signal", kind.look().leds(), 255);
      refuse("lights of one signal", kind.look().leds() * kind.look().each(), 255);
      refuse("aspects on one signal", kind.look().states().size(), 127);
      refuse("answers of one signal", kind.answers().size(), 255);
      refuse("addresses of one signal", kind.addresses(), 32);
    }
    return new TableWriter(model).table();
  }

  private static void refuse(String what, int count, int most) throws TableFault {
    if (count > most) {
      throw new TableFault(
          Reason.TOO_MUCH,
          String.format(
              Locale.ROOT,
              "%,d %s, and a table holds at most %,d; share them between more controllers",
              count,
              what,
              most));
    }
  }

  /** Where buses, chains, rhythms, flashing lights, kinds and cycles begin. */
  private int[] sections() {
    int[] counts = {
      model.buses().size(),
      model.chains().size(),
      model.rhythms().size(),
      model.flashing().size(),
      model.kinds().size()
    };
    int[] sizes = {BUS, CHAIN, RHYTHM, FLASH, KIND};
    int[] at = new int[sizes.length + 1];
    at[0] = HEADER;
    for (int i = 0; i < sizes.length; i++) {
      at[i + 1] = at[i] + counts[i] * sizes[i];
    }
    return at;
  }

  private byte[] table() throws TableFault {
    Bytes body = body();
    int length = pool.end() + 4;
    refuse("bytes of table", length, LONGEST);
    Bytes bytes = new Bytes();
    bytes.add('D', 'B', 'L', 'T', VERSION, needs());
    bytes.u16(length).u16(model.edition()).u16(model.units().size());
    bytes.add(model.buses().size(), model.chains().size());
    bytes.add(model.rhythms().size(), model.flashing().size());
    bytes.add(model.colours(), model.kinds().size());
    int[] sections = sections();
    for (int i = 1; i < sections.length; i++) {
      bytes.u16(sections[i]);
    }
    bytes.add(cycles.bytes().size(), model.servos().size());
    bytes.writeBytes(body.toByteArray());
    pool.pieces().forEach(b -> bytes.writeBytes(b.array()));
    bytes.u32(Checksum.of(bytes.toByteArray(), bytes.size()));
    return bytes.toByteArray();
  }

  private int needs() {
    boolean settles = model.kinds().stream().anyMatch(k -> k.settling() > 0);
    boolean glows = model.kinds().stream().anyMatch(k -> !k.look().glows().isEmpty());
    boolean numerals = model.kinds().stream().anyMatch(k -> k.look().numeral().isAny());
    boolean levels = model.units().stream().anyMatch(u -> u.level() > 0);
    boolean chips = model.kinds().stream().anyMatch(k -> k.look().each() > 1);
    return (settles ? 1 : 0)
        | (glows ? 2 : 0)
        | (carries(Speaks.MQTT) ? 4 : 0)
        | (carries(Speaks.OPENLCB) ? 8 : 0)
        | (levels ? 16 : 0)
        | (chips ? 32 : 0)
        | (numerals ? 64 : 0)
        | (model.servos().isEmpty() ? 0 : MORE);
  }

  private boolean carries(Speaks speaks) {
    return model.buses().stream().anyMatch(b -> b.speaks() == speaks);
  }

  private Bytes body() {
    Bytes body = new Bytes();
    IntStream.range(0, model.buses().size()).forEach(i -> bus(body, i));
    int first = 0;
    for (int i = 0; i < model.chains().size(); i++) {
      TableModel.Chain chain = model.chains().get(i);
      List<Integer> levels = levels(i);
      Bytes palettes = new Bytes();
      levels.forEach(palettes::write);
      int size = model.colours() * chain.channels();
      for (int at = 0; at < chain.palette().size(); at += size) {
        chain.palette().subList(at, at + size).forEach(palettes::write);
        if (!chain.night().isEmpty()) {
          chain.night().subList(at, at + size).forEach(palettes::write);
        }
      }
      int more = (chain.night().isEmpty() ? 0 : MORE) | (levels.isEmpty() ? 0 : LEVELS);
      body.u16(chain.leds()).add(chain.channels() | more);
      body.u16(pool.place(palettes) + levels.size());
      body.u16(pool.place(PlaceBytes.of(model, cycles, units.get(i), model.firstLed(i))))
          .u16(first);
      first += units.get(i).size();
    }
    for (TableModel.Rhythm rhythm : model.rhythms()) {
      body.u16(rhythm.period()).u16(rhythm.first());
    }
    for (TableModel.Flash flash : model.flashing()) {
      body.add(flash.colour(), flash.rhythm() | (flash.darkFirst() ? MORE : 0));
    }
    model.kinds().forEach(kind -> kind(body, kind));
    cycles.bytes().forEach(body::write);
    for (TableModel.Servo servo : model.servos()) {
      Bytes pulses = new Bytes();
      servo.pulses().forEach(pulses::u16);
      body.add(servo.channel()).u16(servo.unit()).add(servo.step());
      body.u16(pool.place(pulses));
    }
    return body;
  }

  /** The level of each unit of a chain, last first; none where all have the first. */
  private List<Integer> levels(int chain) {
    List<Integer> levels = new ArrayList<>();
    units.get(chain).forEach(u -> levels.add(0, u.level()));
    return levels.stream().allMatch(level -> level == 0) ? List.of() : levels;
  }

  private void bus(Bytes body, int place) {
    TableModel.Bus bus = model.buses().get(place);
    Index index =
        switch (bus.speaks()) {
          case DCC -> Index.addresses(model, cycles, place);
          case MQTT -> Index.topics(model, place);
          case OPENLCB -> Index.events(model, cycles, place);
        };
    boolean dcc = bus.speaks() == Speaks.DCC;
    body.add(code(bus.speaks()) | (dcc && bus.firstDecoder() == 0 ? MORE : 0), bus.aspectBits());
    if (dcc) {
      long[] addresses =
          model.units().stream()
              .filter(u -> model.kinds().get(u.kind()).bus() == place)
              .flatMap(u -> u.key().stream())
              .mapToLong(a -> a)
              .sorted()
              .toArray();
      boolean none = addresses.length == 0;
      body.u16(none ? 1 : (int) addresses[0]);
      body.u16(none ? 0 : (int) addresses[addresses.length - 1]);
    } else {
      body.u32((int) index.reach());
    }
    body.u16(pool.place(index.bytes())).u16(index.records());
    body.add(dcc ? (int) index.reach() : 0);
  }

  private void kind(Bytes body, Kind kind) {
    Look look = kind.look();
    List<Answer> answers = answers(kind);
    boolean naming = !answers.isEmpty() && !isInOrder(answers);
    body.add(look.leds(), look.states().size() | (naming ? MORE : 0));
    body.u16(pool.place(look(look)) + look.states().size());
    Bytes piece = new Bytes();
    kind.names().forEach(piece::u32);
    if (!isByNumber(kind)) {
      piece.add(answers.size());
      answers.forEach(a -> piece.add(a.value()));
      answers.stream().filter(a -> naming).forEach(a -> piece.add(a.state()));
    }
    body.u16(piece.size() == 0 ? 0 : pool.place(piece));
    body.add(code(kind), kind.addresses());
    body.add(kind.rest() | (look.numeral().isAny() ? MORE : 0), kind.bus());
    int more = (look.glows().isEmpty() ? 0 : MORE) | (look.each() > 1 ? CHIPS : 0);
    body.add(kind.settling() | more);
  }

  private static Bytes look(Look look) {
    Bytes piece = new Bytes();
    look.states().forEach(s -> piece.write(s.number()));
    if (look.numeral().isAny()) {
      NumeralBytes.of(look.states(), look.numeral()).write(piece, look.numeral());
    } else {
      look.states().forEach(s -> s.lights().forEach(piece::write));
    }
    look.glows().forEach(glow -> piece.write(glow.middle() | (glow.filament() ? MORE : 0)));
    return piece;
  }

  /** True when values call up states by their numbers, or nothing calls up a state by a value. */
  private static boolean isByNumber(Kind kind) {
    return !kind.names().isEmpty() || kind.listed() || kind.answers().equals(byNumber(kind.look()));
  }

  /** What values call up, by state; none where the numbers of states say it. */
  private static List<Answer> answers(Kind kind) {
    return isByNumber(kind)
        ? List.of()
        : kind.answers().stream().sorted(Comparator.comparingInt(Answer::state)).toList();
  }

  private static boolean isInOrder(List<Answer> answers) {
    return IntStream.range(0, answers.size()).allMatch(i -> answers.get(i).state() == i);
  }

  private static List<Answer> byNumber(Look look) {
    List<Answer> found = new ArrayList<>();
    for (int i = 0; i < look.states().size(); i++) {
      int number = look.states().get(i).number();
      if (found.stream().noneMatch(a -> a.value() == number)) {
        found.add(new Answer(number, i));
      }
    }
    return found.stream().sorted().toList();
  }

  private static int code(Speaks speaks) {
    return switch (speaks) {
      case DCC -> 0;
      case MQTT -> 1;
      case OPENLCB -> 2;
    };
  }

  private static int code(Kind kind) {
    return kind.mode().ordinal()
        | (kind.oneIsNormal() ? 0x08 : 0)
        | (kind.lowFirst() ? 0x10 : 0)
        | (kind.names().isEmpty() ? 0 : 0x20)
        | (kind.keep() ? 0x40 : 0)
        | (kind.onApproach() ? MORE : 0);
  }

  /** Pieces that offsets point to; like ones are kept once. */
  private static final class Pool {
    private final Map<ByteBuffer, Integer> places = new LinkedHashMap<>();
    private int end;

    Pool(int start) {
      this.end = start;
    }

    int place(Bytes bytes) {
      ByteBuffer piece = ByteBuffer.wrap(bytes.toByteArray());
      Integer known = places.putIfAbsent(piece, end);
      if (known != null) {
        return known;
      }
      end += piece.capacity();
      return end - piece.capacity();
    }

    Iterable<ByteBuffer> pieces() {
      return places.keySet();
    }

    int end() {
      return end;
    }
  }
}
