package dev.doublet.table;

import dev.doublet.table.TableModel.Chain;
import dev.doublet.table.TableModel.Flash;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Mode;
import dev.doublet.table.TableModel.Rhythm;
import dev.doublet.table.TableModel.Unit;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Does with a table what a controller does: takes commands, remembers what each signal shows, and
 * gives the bytes for its LEDs. It holds state: one instance is one controller since power-up.
 * Times are milliseconds since any moment, at least 0. It is long because all commands that a
 * controller takes change the one state that it holds.
 */
public final class TableReader {
  /** Bytes that a unit remembers, and those more when some unit settles. */
  static final int UNIT = 2;

  static final int SETTLING = 1;

  private static final int NO_VALUE = -1;
  private static final int BROADCAST = 2047;
  private static final int DARK = 0x80;

  /** A fade younger than this many steps of 4 ms is led on to another state, not begun anew. */
  private static final int SOON = 32;

  private final TableModel model;
  private final Kind[] kinds;
  private final Map<Integer, List<Integer>> listeners = new HashMap<>();
  private final int[] shown;
  private final int[] bits;
  private final int[] known;
  private final int[] heard;
  private final int[] before;
  private final int[] since;
  private final int[] pulses;
  private final int[] moved;
  private boolean night;
  private int test;

  /** A controller with this table, at power-up. */
  public TableReader(TableModel model) {
    this.model = model;
    this.kinds = model.units().stream().map(u -> model.kinds().get(u.kind())).toArray(Kind[]::new);
    this.shown = new int[kinds.length];
    this.bits = new int[kinds.length];
    this.known = new int[kinds.length];
    this.heard = new int[kinds.length];
    this.since = new int[kinds.length];
    Arrays.fill(heard, NO_VALUE);
    for (int unit = 0; unit < kinds.length; unit++) {
      if (kinds[unit].addresses() > 0) {
        for (long address : model.units().get(unit).key()) {
          List<Integer> there = listeners.computeIfAbsent((int) address, a -> new ArrayList<>());
          if (!there.contains(unit)) {
            there.add(unit);
          }
        }
      }
      shown[unit] = kinds[unit].rest();
    }
    this.before = shown.clone();
    this.pulses = new int[model.servos().size()];
    this.moved = new int[pulses.length];
  }

  /**
   * Opens the bytes of a table.
   *
   * @throws TableFault when they are not a sound table
   */
  public static TableReader open(byte[] bytes) throws TableFault {
    return new TableReader(TableDecoder.decode(bytes));
  }

  /** What the table holds. */
  public TableModel model() {
    return model;
  }

  /** Sets whether it is night; at first it is day. */
  public void setNight(boolean on) {
    night = on;
  }

  /** Shows one colour on every lamp, from 1; 0 ends the test. */
  public void setTest(int colour) {
    test = colour;
  }

  /**
   * Says whether a train approaches a unit; does nothing to one that is not lit on approach. At
   * first all are lit.
   */
  public void setApproach(int unit, boolean on, long now) {
    if (kinds[unit].onApproach()) {
      turn(unit, state(unit) | (on ? 0 : DARK), now);
    }
  }

  /**
   * Shows the first state of a number.
   *
   * @return whether the unit has one
   */
  public boolean set(int unit, int number, long now) {
    List<TableModel.State> states = kinds[unit].look().states();
    for (int state = 0; state < states.size(); state++) {
      if (states.get(state).number() == number) {
        heard[unit] = NO_VALUE;
        show(unit, state, now);
        return true;
      }
    }
    return false;
  }

  /** The state that a unit shows, as a place in its look, without what has settled since. */
  public int state(int unit) {
    return shown[unit] & ~DARK;
  }

  /** The number of the state that a unit shows now. */
  public int number(int unit, long now) {
    settle(unit, now);
    return kinds[unit].look().states().get(state(unit)).number();
  }

  /**
   * Takes a whole DCC packet, first byte to error byte. What is no sound accessory packet, and what
   * switches an output off, does nothing.
   *
   * @return how many units it was for
   */
  public int packet(int bus, byte[] packet, long now) {
    int error = 0;
    for (byte b : packet) {
      error ^= b;
    }
    if (packet.length < 3 || packet.length > 4 || (error & 0xFF) != 0 || packet[0] >= -64) {
      return 0;
    }
    int second = packet[1] & 0xFF;
    int address = (packet[0] & 0x3F) << 2 | (~second & 0x70) << 4 | second >> 1 & 3;
    if (packet.length == 3) {
      return (second & 0x88) == 0x88 ? accessory(bus, address, second & 1, now) : 0;
    }
    return (second & 0x89) == 0x01 ? extended(bus, address, packet[2] & 0xFF, now) : 0;
  }

  /**
   * Takes a basic accessory command that switches an output on.
   *
   * @param address the binary address, 0 to 2047
   * @param output 1 is normal, 0 reverse
   * @return how many units it was for
   */
  public int accessory(int bus, int address, int output, long now) {
    int taken = 0;
    for (int unit : listeners.getOrDefault(address, List.of())) {
      Kind kind = kinds[unit];
      if (kind.bus() != bus || kind.mode() == Mode.ASPECT_NUMBER) {
        continue;
      }
      List<Long> key = model.units().get(unit).key();
      for (int i = 0; i < key.size(); i++) {
        if (key.get(i) == address) {
          taken++;
          if (kind.mode() == Mode.BINARY_CODED) {
            takeBit(unit, i, output, now);
          } else {
            call(unit, 2 * i + output, now);
          }
        }
      }
    }
    return taken;
  }

  /**
   * Takes an extended accessory command; address 2047 is for every unit of the bus.
   *
   * @param address the binary address, 0 to 2047
   * @param value 0 to 255
   * @return how many units it was for
   */
  public int extended(int bus, int address, int value, long now) {
    int taken = 0;
    if (address == BROADCAST) {
      for (int unit = 0; unit < kinds.length; unit++) {
        taken += extended(bus, unit, value, kinds[unit], now);
      }
      return taken;
    }
    for (int unit : listeners.getOrDefault(address, List.of())) {
      taken += extended(bus, unit, value, kinds[unit], now);
    }
    return taken;
  }

  private int extended(int bus, int unit, int value, Kind kind, long now) {
    if (kind.bus() != bus || kind.mode() != Mode.ASPECT_NUMBER) {
      return 0;
    }
    boolean carried = value >> model.buses().get(bus).aspectBits() == 0;
    call(unit, carried ? value : NO_VALUE, now);
    return 1;
  }

  /**
   * Takes an MQTT message.
   *
   * @param topic the whole topic
   * @param payload an aspect's name, or its number in decimal digits
   * @return how many units it was for
   */
  public int topic(int bus, byte[] topic, byte[] payload, long now) {
    long sum = Integer.toUnsignedLong(Checksum.of(topic, topic.length));
    byte[] folded =
        NameFolding.of(new String(payload, StandardCharsets.ISO_8859_1))
            .getBytes(StandardCharsets.ISO_8859_1);
    int taken = 0;
    for (int unit = 0; unit < kinds.length; unit++) {
      Kind kind = kinds[unit];
      if (kind.bus() == bus
          && kind.mode() == Mode.TOPIC
          && model.units().get(unit).key().get(0) == sum) {
        if (kind.names().isEmpty()) {
          call(unit, decimal(folded), now);
        } else {
          show(unit, kind.names().indexOf(Checksum.of(folded, folded.length)), now);
        }
        taken++;
      }
    }
    return taken;
  }

  /**
   * Takes an OpenLCB event.
   *
   * @return how many units it was for
   */
  public int event(int bus, long event, long now) {
    int taken = 0;
    for (int unit = 0; unit < kinds.length; unit++) {
      Kind kind = kinds[unit];
      if (kind.bus() == bus && kind.mode() == Mode.EVENT) {
        Unit place = model.units().get(unit);
        long value = event - place.key().get(0);
        int state = -1;
        if (kind.listed()) {
          state = place.key().indexOf(event);
        } else if (value >= 0 && value <= 255) {
          state = stateFor(kind, (int) value);
        }
        if (state >= 0) {
          show(unit, state, now);
          taken++;
        }
      }
    }
    return taken;
  }

  /** The bytes for a chain's LEDs, in the order sent. */
  public byte[] leds(int chain, long millis) {
    Chain sent = model.chains().get(chain);
    Map<Integer, byte[][]> levels = new HashMap<>();
    int first = model.firstLed(chain);
    byte[] bytes = new byte[sent.leds() * sent.channels()];
    for (int unit = 0; unit < kinds.length; unit++) {
      int led = model.units().get(unit).led() - first;
      if (led < 0 || led >= sent.leds()) {
        continue;
      }
      settle(unit, millis);
      if (isDark(unit) && test == 0) {
        continue;
      }
      int level = model.units().get(unit).level();
      byte[][] bytesOf = levels.computeIfAbsent(level, l -> bytes(sent, l, millis));
      int each = kinds[unit].look().each();
      List<Integer> lights = kinds[unit].look().states().get(state(unit)).lights();
      for (int channel = 0; channel < lights.size() / each * sent.channels(); channel++) {
        int light = lights.get(each == 1 ? channel / sent.channels() : channel);
        byte[] shining = bytesOf[test > 0 ? test : light];
        if (shining != null) {
          bytes[led * sent.channels() + channel] = shining[channel % sent.channels()];
        }
      }
    }
    return bytes;
  }

  /**
   * The pulse that a servo is to have now, in microseconds: that of what its unit shows, or one on
   * the way there. When first asked it is there at once.
   *
   * @param servo its place among the servos, from 0
   */
  public int pulse(int servo, long now) {
    TableModel.Servo moves = model.servos().get(servo);
    settle(moves.unit(), now);
    int to = moves.pulses().get(state(moves.unit()));
    int tick = (int) (now / TableModel.Servo.STEP % 256);
    int far = (tick - moved[servo] & 0xFF) * moves.step();
    moved[servo] = tick;
    if (pulses[servo] == 0 || Math.abs(to - pulses[servo]) <= far) {
      pulses[servo] = to;
    } else {
      pulses[servo] += to > pulses[servo] ? far : -far;
    }
    return pulses[servo];
  }

  /** What a chain is sent for each colour now, at one of its levels. */
  List<Integer> palette(Chain chain, int level) {
    int size = model.colours() * chain.channels();
    return (night && !chain.night().isEmpty() ? chain.night() : chain.palette())
        .subList(level * size, (level + 1) * size);
  }

  /** The colour that a test shows; 0 when there is none. */
  int test() {
    return test;
  }

  /** True while a unit is dark for want of a train. */
  boolean isDark(int unit) {
    return (shown[unit] & DARK) != 0;
  }

  /** What a chain is sent for each light at a time; null for those dark at that time. */
  private byte[][] bytes(Chain chain, int level, long millis) {
    byte[][] sent = new byte[1 + model.colours() + model.flashing().size()][];
    for (int colour = 1; colour <= model.colours(); colour++) {
      sent[colour] = bytes(chain, level, colour);
    }
    for (int i = 0; i < model.flashing().size(); i++) {
      Flash flash = model.flashing().get(i);
      Rhythm rhythm = model.rhythms().get(flash.rhythm());
      if (millis % rhythm.period() < rhythm.first() != flash.darkFirst()) {
        sent[1 + model.colours() + i] = bytes(chain, level, flash.colour());
      }
    }
    return sent;
  }

  private byte[] bytes(Chain chain, int level, int colour) {
    byte[] bytes = new byte[chain.channels()];
    for (int i = 0; i < bytes.length; i++) {
      bytes[i] = palette(chain, level).get((colour - 1) * bytes.length + i).byteValue();
    }
    return bytes;
  }

  /** The number that digits alone make; anything else, and what exceeds 255, is none. */
  private static int decimal(byte[] payload) {
    int value = 0;
    for (byte digit : payload) {
      if (digit < '0' || digit > '9') {
        return NO_VALUE;
      }
      value = Math.min(256, 10 * value + digit - '0');
    }
    return payload.length == 0 || value > 255 ? NO_VALUE : value;
  }

  private void takeBit(int unit, int index, int output, long now) {
    settle(unit, now);
    Kind kind = kinds[unit];
    int bit = 1 << (kind.lowFirst() ? index : kind.addresses() - 1 - index);
    known[unit] |= bit;
    bits[unit] = (output == 1) == kind.oneIsNormal() ? bits[unit] | bit : bits[unit] & ~bit;
    if (kind.settling() > 0) {
      heard[unit] = steps(now);
    } else {
      decide(unit, now);
    }
  }

  /** Calls up what bits say once no packet has come for long enough. */
  void settle(int unit, long now) {
    if (heard[unit] >= 0 && (steps(now) - heard[unit] & 127) > kinds[unit].settling()) {
      heard[unit] = NO_VALUE;
      decide(unit, now);
    }
  }

  private static int steps(long now) {
    return (int) (now / 16 % 128);
  }

  private void decide(int unit, long now) {
    if (known[unit] == (1 << kinds[unit].addresses()) - 1) {
      call(unit, bits[unit], now);
    }
  }

  private static int stateFor(Kind kind, int value) {
    return kind.answers().stream()
        .filter(a -> a.value() == value)
        .findFirst()
        .map(a -> a.state())
        .orElse(-1);
  }

  private void call(int unit, int value, long now) {
    show(unit, stateFor(kinds[unit], value), now);
  }

  private void show(int unit, int state, long now) {
    if (state >= 0) {
      turn(unit, shown[unit] & DARK | state, now);
    } else if (!kinds[unit].keep()) {
      turn(unit, shown[unit] & DARK | kinds[unit].rest(), now);
    }
  }

  private void turn(int unit, int to, long now) {
    if (to != shown[unit] && (before[unit] == shown[unit] || age(unit, now) >= SOON)) {
      before[unit] = shown[unit];
      since[unit] = (int) (now / 4 % 256);
    }
    shown[unit] = to;
  }

  /** How long ago a fade began, in steps of 4 ms. */
  int age(int unit, long now) {
    return (int) (now / 4 - since[unit]) & 0xFF;
  }

  /** What a unit showed before its fade, with its top bit when it was dark. */
  int before(int unit) {
    return before[unit];
  }

  /** What it shows, likewise. */
  int shown(int unit) {
    return shown[unit];
  }

  /** Ends a fade. */
  void come(int unit) {
    before[unit] = shown[unit];
  }

  /** True when every unit shows the state at its place in an array, after settling. */
  boolean shows(int[] expected, long now) {
    for (int unit = 0; unit < expected.length; unit++) {
      settle(unit, now);
      if (state(unit) != expected[unit]) {
        return false;
      }
    }
    return true;
  }

  /**
   * What a controller remembers that settles, and fades or not: for each unit what it shows, as a
   * difference from rest, bits received and bits known, when it was heard; and of fades, what it
   * showed and since when.
   */
  byte[] memory(boolean fades) {
    int size = UNIT + SETTLING + (fades ? 2 : 0);
    byte[] memory = new byte[size * kinds.length];
    for (int unit = 0; unit < kinds.length; unit++) {
      int at = size * unit;
      memory[at] = (byte) (shown[unit] ^ kinds[unit].rest());
      memory[at + 1] = (byte) (known[unit] << 4 | bits[unit]);
      memory[at + 2] = (byte) (heard[unit] < 0 ? 0 : 0x80 | heard[unit]);
      if (fades) {
        memory[at + 3] = (byte) (before[unit] ^ kinds[unit].rest());
        memory[at + 4] = (byte) since[unit];
      }
    }
    return memory;
  }
}
