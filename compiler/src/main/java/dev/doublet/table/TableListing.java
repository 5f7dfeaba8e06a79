package dev.doublet.table;

import dev.doublet.bus.Accessory;
import dev.doublet.bus.EventId;
import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Answer;
import dev.doublet.table.TableDecoder.Decoded;
import dev.doublet.table.TableModel.Chain;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Look;
import dev.doublet.table.TableModel.Mode;
import dev.doublet.table.TableModel.Unit;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * Lists the bytes of a table for people: one fact a line and no offsets, so that the difference of
 * two listings is the difference of two tables.
 */
public final class TableListing {
  private static final List<String> SECTIONS =
      List.of(
          "header",
          "buses",
          "chains",
          "rhythms",
          "flashing",
          "kinds",
          "cycles",
          "servos",
          "palettes",
          "places",
          "looks",
          "answers",
          "names",
          "indices",
          "pulses",
          "checksum");

  private static final int ADDRESSES = 2048;

  private final Decoded table;
  private final TableModel model;
  private final StringBuilder text = new StringBuilder();

  private TableListing(Decoded table) {
    this.table = table;
    this.model = table.model();
  }

  /**
   * The listing of a table.
   *
   * @throws TableFault when the bytes are not a sound table
   */
  public static String of(byte[] bytes) throws TableFault {
    return new TableListing(TableDecoder.unpack(bytes)).list();
  }

  private String list() {
    line("table, format version 3");
    line("edition %d", model.edition());
    buses();
    chains();
    lights();
    for (int kind = 0; kind < model.kinds().size(); kind++) {
      kind(kind);
    }
    signals();
    servos();
    sizes();
    return text.toString();
  }

  private void buses() {
    line("");
    line("buses");
    for (int i = 0; i < model.buses().size(); i++) {
      TableModel.Bus bus = model.buses().get(i);
      switch (bus.speaks()) {
        case DCC ->
            line(
                "  %d  DCC, values of %d bits, address 1 at decoder %d",
                i, bus.aspectBits(), bus.firstDecoder());
        case MQTT -> line("  %d  MQTT", i);
        case OPENLCB -> line("  %d  OpenLCB", i);
      }
    }
  }

  private void chains() {
    line("");
    line("chains, and the bytes sent for each colour");
    for (int i = 0; i < model.chains().size(); i++) {
      Chain chain = model.chains().get(i);
      line("  %d  %d LEDs", i, chain.leds());
      int level = model.colours() * chain.channels();
      for (int at = 0; level > 0 && at < chain.palette().size(); at += level) {
        if (chain.palette().size() > level) {
          line("     level %d", at / level);
        }
        colours(chain, at);
      }
    }
  }

  /** The palette that begins at a place among those of a chain. */
  private void colours(Chain chain, int palette) {
    for (int colour = 0; colour < model.colours(); colour++) {
      int first = palette + colour * chain.channels();
      line(
          "     colour %d  %s%s",
          colour + 1,
          drives(chain.palette(), first, chain.channels()),
          chain.night().isEmpty()
              ? ""
              : ", by night " + drives(chain.night(), first, chain.channels()));
    }
  }

  private static String drives(List<Integer> palette, int first, int channels) {
    return palette.subList(first, first + channels).stream()
        .map(drive -> String.format(Locale.ROOT, "%02X", drive))
        .collect(Collectors.joining(" "));
  }

  private void lights() {
    line("");
    line("lights");
    line("  -  dark");
    for (int colour = 1; colour <= model.colours(); colour++) {
      line("  %d  colour %d", colour, colour);
    }
    for (int i = 0; i < model.flashing().size(); i++) {
      TableModel.Flash flash = model.flashing().get(i);
      TableModel.Rhythm rhythm = model.rhythms().get(flash.rhythm());
      line(
          "  %d  colour %d, %s %d of every %d ms",
          model.colours() + i + 1,
          flash.colour(),
          flash.darkFirst() ? "dark for the first" : "lit",
          rhythm.first(),
          rhythm.period());
    }
  }

  private void kind(int place) {
    Kind kind = model.kinds().get(place);
    Look look = kind.look();
    line("");
    line("kind %d", place);
    line("  %s on bus %d", word(kind.mode()), kind.bus());
    line(
        "  %s%s",
        Words.count(look.leds(), "LED"),
        look.each() > 1 ? ", a light for each of " + look.each() + " channels" : "");
    if (kind.addresses() > 1) {
      line("  %d addresses", kind.addresses());
    }
    if (kind.mode() == Mode.BINARY_CODED) {
      line("  %s counts 1", kind.oneIsNormal() ? "normal" : "reverse");
      line("  the %s address is the low bit", kind.lowFirst() ? "first" : "last");
    }
    if (kind.settling() > 0) {
      line("  settles %d ms after the last packet", 16 * kind.settling());
    }
    line("  rests at state %d", kind.rest());
    if (look.numeral().isAny()) {
      TableModel.Part head = look.numeral();
      line("  LEDs %d to %d show numbers", head.first(), head.first() + head.count() - 1);
    }
    for (int led = 0; led < look.glows().size(); led++) {
      TableModel.Glow glow = look.glows().get(led);
      String passes = glow.middle() == 0 ? "" : "passes colour " + glow.middle();
      String glows = glow.filament() ? "glows like a filament" : "";
      String both = glows.isEmpty() || passes.isEmpty() ? "" : ", ";
      line("  LED %d %s%s%s", led, glows, both, passes);
    }
    if (kind.onApproach()) {
      line("  dark while no train approaches");
    }
    if (kind.keep()) {
      line("  keeps its state when a value calls up nothing");
    }
    for (int state = 0; state < look.states().size(); state++) {
      TableModel.State shown = look.states().get(state);
      String lights =
          shown.lights().stream()
              .map(light -> light == 0 ? "-" : light.toString())
              .collect(Collectors.joining(" "));
      line(
          "  state %d  number %d  lights %s  by %s",
          state, shown.number(), lights, by(kind, state));
    }
  }

  /** What calls a state up. */
  private static String by(Kind kind, int state) {
    if (!kind.names().isEmpty()) {
      return String.format(Locale.ROOT, "name with checksum %08X", kind.names().get(state));
    }
    if (kind.listed()) {
      return "an event of each signal";
    }
    String values =
        kind.answers().stream()
            .filter(a -> a.state() == state)
            .map(Answer::value)
            .map(String::valueOf)
            .collect(Collectors.joining(", "));
    return values.isEmpty() ? "nothing" : values;
  }

  private void signals() {
    line("");
    line("signals");
    for (int unit = 0; unit < model.units().size(); unit++) {
      signal(unit);
    }
  }

  private void servos() {
    if (!model.servos().isEmpty()) {
      line("");
      line("servos, and their pulses by state");
    }
    for (TableModel.Servo servo : model.servos()) {
      line(
          "  channel %d  signal %d  %d us in %d ms  %s",
          servo.channel(),
          servo.unit(),
          servo.step(),
          TableModel.Servo.STEP,
          servo.pulses().stream().map(String::valueOf).collect(Collectors.joining(" ")));
    }
  }

  private void signal(int place) {
    Unit unit = model.units().get(place);
    Kind kind = model.kinds().get(unit.kind());
    int chain = 0;
    int led = unit.led();
    while (chain + 1 < model.chains().size() && led >= model.chains().get(chain).leds()) {
      led -= model.chains().get(chain).leds();
      chain++;
    }
    line(
        "  signal %d  kind %d  chain %d LED %d%s  %s",
        place, unit.kind(), chain, led, level(chain, unit), key(unit, kind));
  }

  /** Which level it has, where its chain has several. */
  private String level(int chain, Unit unit) {
    Chain on = model.chains().get(chain);
    return on.palette().size() > model.colours() * on.channels() ? " level " + unit.level() : "";
  }

  private static String word(Mode mode) {
    return mode.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private String key(Unit unit, Kind kind) {
    return switch (kind.mode().speaks()) {
      case DCC -> addresses(unit, kind);
      case MQTT -> String.format(Locale.ROOT, "topic with checksum %08X", unit.key().get(0));
      case OPENLCB ->
          (kind.listed() ? "events " : "events from ")
              + unit.key().stream()
                  .map(event -> new EventId(event).toString())
                  .collect(Collectors.joining(", "));
    };
  }

  /** A unit's addresses as users count them and as packets carry them. */
  private String addresses(Unit unit, Kind kind) {
    List<Integer> binary = unit.key().stream().map(Long::intValue).toList();
    int firstDecoder = model.buses().get(kind.bus()).firstDecoder();
    String users =
        binary.stream()
            .map(address -> String.valueOf(Accessory.user(address, firstDecoder)))
            .collect(Collectors.joining(", "));
    String packets = binary.stream().map(String::valueOf).collect(Collectors.joining(", "));
    return String.format(Locale.ROOT, "address %s (binary %s)", users, packets);
  }

  private void sizes() {
    line("");
    line("bytes");
    for (String section : SECTIONS) {
      int size = table.pieces().size(section);
      if (size > 0) {
        line("  %-10s%6d", section, size);
      }
    }
    line("  %-10s%6d", "total", table.length());
    if (!model.units().isEmpty()) {
      line("");
      line(
          "Kinds, places and keys of the signals would take %d bytes if each were free of the"
              + " others.",
          freeBytes());
    }
  }

  /**
   * The fewest bytes for units of any kind, on any LEDs in order, at any addresses: what a table
   * takes below that, it gains from their regularity. Addresses that rise along the signals need
   * fewer than those in any order.
   */
  private int freeBytes() {
    int units = model.units().size();
    int lit = 0;
    int keyBits = 0;
    List<List<Long>> addressed = new ArrayList<>();
    model.buses().forEach(bus -> addressed.add(new ArrayList<>()));
    for (Unit unit : model.units()) {
      Kind kind = model.kinds().get(unit.kind());
      lit += kind.look().leds();
      switch (kind.mode().speaks()) {
        case DCC -> addressed.get(kind.bus()).add(unit.key().get(0));
        case MQTT -> keyBits += 32;
        case OPENLCB -> keyBits += 64 * unit.key().size();
      }
    }
    for (List<Long> addresses : addressed) {
      keyBits += bits(waysToAddress(addresses));
    }
    int leds = model.firstLed(model.chains().size());
    int bits =
        bits(BigInteger.valueOf(model.kinds().size()).pow(units))
            + bits(choices(leds - lit + units, units))
            + keyBits;
    return (bits + 7) / 8;
  }

  /** How many ways there are for signals to have first addresses that rise as these do, or not. */
  private static BigInteger waysToAddress(List<Long> addresses) {
    int count = addresses.size();
    BigInteger ways = choices(Math.max(ADDRESSES, count), count);
    for (int i = 1; i < count; i++) {
      if (addresses.get(i) <= addresses.get(i - 1)) {
        for (int j = 2; j <= count; j++) {
          ways = ways.multiply(BigInteger.valueOf(j));
        }
        return ways;
      }
    }
    return ways;
  }

  /** How many ways there are to choose some of many. */
  private static BigInteger choices(int many, int some) {
    BigInteger ways = BigInteger.ONE;
    for (int i = 1; i <= some; i++) {
      ways = ways.multiply(BigInteger.valueOf(many - some + i)).divide(BigInteger.valueOf(i));
    }
    return ways;
  }

  private static int bits(BigInteger ways) {
    return ways.signum() > 0 ? ways.subtract(BigInteger.ONE).bitLength() : 0;
  }

  private void line(String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values).stripTrailing()).append('\n');
  }
}
