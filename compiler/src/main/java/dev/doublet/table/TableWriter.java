package dev.doublet.table;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Mode;
import dev.doublet.table.TableFault.Reason;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Look;
import dev.doublet.table.TableModel.State;
import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Packs what a table holds into bytes: DEVELOPERS.md, "The table, byte by byte". */
public final class TableWriter {
  private static final int HEADER = 18;
  private static final int LONGEST = 65_535;

  /** The bit of a byte that in version 2 says more than the number in it. */
  private static final int MORE = 0x80;

  private final TableModel model;
  private final List<Run> runs;
  private final Bytes bytes = new Bytes();
  private final Pool pool;
  private final int bits;

  private TableWriter(TableModel model) {
    this.model = model;
    this.runs = Run.fold(model);
    this.bits = lightBits(model.lights().size());
    this.pool =
        new Pool(
            HEADER
                + 3 * model.buses().size()
                + 5 * model.chains().size()
                + 4 * model.rhythms().size()
                + 2 * model.lights().size()
                + 8 * model.kinds().size()
                + runs.stream().mapToInt(r -> r.size(model)).sum());
  }

  /**
   * The bytes of a table.
   *
   * @throws TableFault when there is too much for the format
   */
  public static byte[] write(TableModel model) throws TableFault {
    refuse("buses", model.buses().size(), 127);
    refuse("chains", model.chains().size(), 255);
    refuse("rhythms", model.rhythms().size(), 127);
    refuse("colours", model.colours(), 127);
    refuse("colours in rhythms", model.lights().size(), 255);
    refuse("kinds of signal", model.kinds().size(), 255);
    refuse("signals", model.units().size(), LONGEST);
    refuse("LEDs", model.chains().stream().mapToInt(TableModel.Chain::leds).sum(), LONGEST);
    for (Kind kind : model.kinds()) {
      refuse("LEDs on one signal", kind.look().leds(), 255);
      refuse("aspects on one signal", kind.look().states().size(), 127);
      refuse("answers of one signal", kind.answers().size(), 255);
    }
    return new TableWriter(model).table();
  }

  /** How many bits number so many lights and dark. */
  private static int lightBits(int lights) {
    return Math.max(1, 32 - Integer.numberOfLeadingZeros(lights));
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

  private byte[] table() throws TableFault {
    Bytes body = new Bytes();
    sections(body);
    int length = pool.end() + 4;
    refuse("bytes of table", length, LONGEST);
    bytes.add('D', 'B', 'L', 'T', model.version(), bits);
    bytes.u16(length).u16(model.edition()).u16(model.units().size());
    bytes.add(model.buses().size(), model.chains().size());
    bytes.add(model.rhythms().size(), model.lights().size());
    bytes.add(model.kinds().size(), model.colours());
    bytes.writeBytes(body.toByteArray());
    pool.blobs().forEach(b -> bytes.writeBytes(b.array()));
    bytes.u32(Checksum.of(bytes.toByteArray(), bytes.size()));
    return bytes.toByteArray();
  }

  private void sections(Bytes body) {
    for (TableModel.Bus bus : model.buses()) {
      body.add(code(bus.speaks()), bus.aspectBits(), bus.firstDecoder());
    }
    for (TableModel.Chain chain : model.chains()) {
      Bytes palette = new Bytes();
      chain.palette().forEach(palette::write);
      chain.night().forEach(palette::write);
      body.u16(chain.leds());
      body.add(chain.channels() | (chain.night().isEmpty() ? 0 : MORE)).u16(pool.place(palette));
    }
    for (TableModel.Rhythm rhythm : model.rhythms()) {
      body.u16(rhythm.period()).u16(rhythm.first());
    }
    for (TableModel.Light light : model.lights()) {
      body.add(light.colour(), light.rhythm() | (light.darkFirst() ? MORE : 0));
    }
    for (Kind kind : model.kinds()) {
      body.u16(pool.place(look(kind.look())));
      body.add(code(kind), kind.bus() | (kind.onApproach() ? MORE : 0));
      body.add(kind.addresses(), kind.rest());
      body.u16(answers(kind));
    }
    for (Run run : runs) {
      run(body, run);
    }
  }

  private Bytes look(Look look) {
    Bytes blob = new Bytes();
    blob.add(look.leds(), look.states().size() | (look.glows().isEmpty() ? 0 : MORE));
    look.states().forEach(s -> blob.write(s.number()));
    int held = 0;
    int filled = 0;
    for (State state : look.states()) {
      for (int light : state.lights()) {
        held |= light << filled;
        filled += bits;
        if (filled >= 8) {
          blob.write(held);
          held >>>= 8;
          filled -= 8;
        }
      }
    }
    if (filled > 0) {
      blob.write(held);
    }
    look.glows().forEach(glow -> blob.write(glow.middle() | (glow.filament() ? MORE : 0)));
    return blob;
  }

  private int answers(Kind kind) {
    if (!kind.names().isEmpty()) {
      Bytes blob = new Bytes();
      kind.names().forEach(blob::u32);
      return pool.place(blob);
    }
    if (kind.listed() && kind.mode() == Mode.EVENT
        || kind.answers().equals(kind.look().byNumber())) {
      return 0;
    }
    if (kind.answers().equals(kind.look().byPlace())) {
      return 1;
    }
    Bytes blob = new Bytes();
    blob.add(kind.answers().size());
    for (Answer answer : kind.answers()) {
      blob.add(answer.value(), answer.state());
    }
    return pool.place(blob);
  }

  private void run(Bytes body, Run run) {
    List<TableModel.Unit> units = model.units().subList(run.first(), run.first() + run.count());
    TableModel.Unit first = units.get(0);
    body.add(run.count() | (run.mixed() ? 0x80 : 0)).u16(first.led());
    units.subList(0, run.mixed() ? run.count() : 1).forEach(u -> body.write(u.kind()));
    switch (run.keyForm(model)) {
      case ADDRESS -> body.u16(first.key().get(0).intValue());
      case TOPIC -> units.forEach(u -> body.u32(u.key().get(0).intValue()));
      case EVENT -> body.u64(first.key().get(0)).u16(run.step());
      case LIST -> units.forEach(u -> body.u16(pool.place(list(u))));
    }
  }

  private Bytes list(TableModel.Unit unit) {
    boolean events = model.kinds().get(unit.kind()).mode() == Mode.EVENT;
    Bytes blob = new Bytes();
    for (long key : unit.key()) {
      if (events) {
        blob.u64(key);
      } else {
        blob.u16((int) key);
      }
    }
    return blob;
  }

  private static int code(Speaks speaks) {
    return switch (speaks) {
      case DCC -> 0;
      case MQTT -> 1;
      case OPENLCB -> 2;
    };
  }

  private static int code(Kind kind) {
    int mode =
        switch (kind.mode()) {
          case ASPECT_NUMBER -> 0;
          case BINARY_CODED -> 1;
          case ONE_PER_OUTPUT -> 2;
          case TOPIC -> 3;
          case EVENT -> 4;
        };
    return mode
        | (kind.oneIsNormal() ? 0x08 : 0)
        | (kind.lowFirst() ? 0x10 : 0)
        | (kind.names().isEmpty() ? 0 : 0x20)
        | (kind.keep() ? 0x40 : 0)
        | (kind.listed() ? 0x80 : 0);
  }

  /** Bytes, least significant first. */
  private static final class Bytes extends ByteArrayOutputStream {
    Bytes add(int... values) {
      for (int value : values) {
        write(value);
      }
      return this;
    }

    Bytes u16(int value) {
      return add(value, value >>> 8);
    }

    Bytes u32(int value) {
      return u16(value).u16(value >>> 16);
    }

    Bytes u64(long value) {
      return u32((int) value).u32((int) (value >>> 32));
    }
  }

  /** Runs of bytes that are pointed to; like ones are kept once. */
  private static final class Pool {
    private final Map<ByteBuffer, Integer> places = new LinkedHashMap<>();
    private int end;

    Pool(int start) {
      this.end = start;
    }

    int place(Bytes bytes) {
      ByteBuffer blob = ByteBuffer.wrap(bytes.toByteArray());
      Integer known = places.putIfAbsent(blob, end);
      if (known != null) {
        return known;
      }
      end += blob.capacity();
      return end - blob.capacity();
    }

    Iterable<ByteBuffer> blobs() {
      return places.keySet();
    }

    int end() {
      return end;
    }
  }
}
