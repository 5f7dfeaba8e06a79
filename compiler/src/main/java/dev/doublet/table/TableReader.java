package dev.doublet.table;

import dev.doublet.layout.Mode;
import dev.doublet.table.TableModel.Chain;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Light;
import dev.doublet.table.TableModel.Rhythm;
import dev.doublet.table.TableModel.Unit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Does with a table what a controller does: takes commands, remembers what each signal shows, and
 * gives the bytes for its LEDs. It holds state: one instance is one controller since power-up.
 */
public final class TableReader {
  /** Bytes that a unit remembers. */
  static final int UNIT = 2;

  private static final int NO_VALUE = -1;
  private static final int BROADCAST = 2047;

  private final TableModel model;
  private final Kind[] kinds;
  private final int[][] addresses;
  private final Map<Integer, List<Integer>> listeners = new HashMap<>();
  private final int[] states;
  private final int[] bits;
  private final int[] known;
  private final boolean[] dark;
  private boolean night;

  /** A controller with this table, at power-up. */
  public TableReader(TableModel model) {
    this.model = model;
    this.kinds = model.units().stream().map(u -> model.kinds().get(u.kind())).toArray(Kind[]::new);
    this.addresses = new int[kinds.length][];
    this.states = new int[kinds.length];
    this.bits = new int[states.length];
    this.known = new int[states.length];
    this.dark = new boolean[states.length];
    for (int unit = 0; unit < states.length; unit++) {
      addresses[unit] = addresses(kinds[unit], model.units().get(unit));
      for (int address : addresses[unit]) {
        List<Integer> there = listeners.computeIfAbsent(address, a -> new ArrayList<>());
        if (!there.contains(unit)) {
          there.add(unit);
        }
      }
      states[unit] = kinds[unit].rest();
    }
  }

  private static int[] addresses(Kind kind, Unit unit) {
    int[] addresses = new int[kind.addresses()];
    for (int i = 0; i < addresses.length; i++) {
      addresses[i] =
          kind.listed()
              ? unit.key().get(i).intValue()
              : (unit.key().get(0).intValue() + i) % TableModel.ADDRESSES;
    }
    return addresses;
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

  /**
   * Says whether a train approaches a unit; does nothing to one that is not lit on approach. At
   * first all are lit.
   */
  public void setApproach(int unit, boolean on) {
    dark[unit] = kinds[unit].onApproach() && !on;
  }

  /** The state that a unit shows now, as a place in its look. */
  public int state(int unit) {
    return states[unit];
  }

  /** The number of the state that a unit shows now. */
  public int number(int unit) {
    return kinds[unit].look().states().get(states[unit]).number();
  }

  /**
   * Takes a whole DCC packet, first byte to error byte. What is no sound accessory packet, and what
   * switches an output off, does nothing.
   *
   * @return how many units it was for
   */
  public int packet(int bus, byte[] packet) {
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
      return (second & 0x88) == 0x88 ? accessory(bus, address, second & 1) : 0;
    }
    return (second & 0x89) == 0x01 ? extended(bus, address, packet[2] & 0xFF) : 0;
  }

  /**
   * Takes a basic accessory command that switches an output on.
   *
   * @param address the binary address, 0 to 2047
   * @param output 1 is normal, 0 reverse
   * @return how many units it was for
   */
  public int accessory(int bus, int address, int output) {
    int taken = 0;
    for (int unit : listeners.getOrDefault(address, List.of())) {
      Kind kind = kinds[unit];
      if (kind.bus() != bus
          || kind.mode() != Mode.BINARY_CODED && kind.mode() != Mode.ONE_PER_OUTPUT) {
        continue;
      }
      boolean meant = false;
      for (int i = 0; i < kind.addresses(); i++) {
        if (addresses[unit][i] == address) {
          meant = true;
          if (kind.mode() == Mode.BINARY_CODED) {
            takeBit(unit, i, output);
          } else {
            call(unit, 2 * i + output);
          }
        }
      }
      taken += meant ? 1 : 0;
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
  public int extended(int bus, int address, int value) {
    int taken = 0;
    if (address == BROADCAST) {
      for (int unit = 0; unit < states.length; unit++) {
        taken += extended(bus, unit, value, kinds[unit]);
      }
      return taken;
    }
    for (int unit : listeners.getOrDefault(address, List.of())) {
      taken += extended(bus, unit, value, kinds[unit]);
    }
    return taken;
  }

  private int extended(int bus, int unit, int value, Kind kind) {
    if (kind.bus() != bus || kind.mode() != Mode.ASPECT_NUMBER) {
      return 0;
    }
    boolean carried = value >> model.buses().get(bus).aspectBits() == 0;
    call(unit, carried ? value : NO_VALUE);
    return 1;
  }

  /**
   * Takes an MQTT message.
   *
   * @param topic the whole topic
   * @param payload an aspect's name, or its number in decimal digits
   * @return how many units it was for
   */
  public int topic(int bus, byte[] topic, byte[] payload) {
    long sum = Integer.toUnsignedLong(Checksum.of(topic, topic.length));
    int taken = 0;
    for (int unit = 0; unit < states.length; unit++) {
      Kind kind = kinds[unit];
      if (kind.bus() == bus
          && kind.mode() == Mode.TOPIC
          && model.units().get(unit).key().get(0) == sum) {
        if (kind.names().isEmpty()) {
          call(unit, decimal(payload));
        } else {
          show(unit, kind.names().indexOf(Checksum.of(payload, payload.length)));
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
  public int event(int bus, long event) {
    int taken = 0;
    for (int unit = 0; unit < states.length; unit++) {
      Kind kind = kinds[unit];
      if (kind.bus() == bus && kind.mode() == Mode.EVENT) {
        Unit place = model.units().get(unit);
        long value = event - place.key().get(0);
        int state = -1;
        if (kind.listed()) {
          state = place.key().indexOf(event);
        } else if (value >= 0 && value <= 255) {
          state = kind.stateFor((int) value);
        }
        if (state >= 0) {
          states[unit] = state;
          taken++;
        }
      }
    }
    return taken;
  }

  /**
   * The bytes for a chain's LEDs, in the order sent.
   *
   * @param chain from 0
   * @param millis time since any moment, at least 0
   */
  public byte[] leds(int chain, long millis) {
    Chain shown = model.chains().get(chain);
    byte[][] sent = sent(shown, millis);
    int first = model.firstLed(chain);
    byte[] bytes = new byte[shown.leds() * shown.channels()];
    for (int unit = 0; unit < states.length; unit++) {
      int led = model.units().get(unit).led() - first;
      if (led < 0 || led >= shown.leds() || dark[unit]) {
        continue;
      }
      for (int light : kinds[unit].look().states().get(states[unit]).lights()) {
        if (sent[light] != null) {
          System.arraycopy(sent[light], 0, bytes, led * shown.channels(), shown.channels());
        }
        led++;
      }
    }
    return bytes;
  }

  /** What a chain is sent for each colour now. */
  List<Integer> palette(Chain chain) {
    return night && !chain.night().isEmpty() ? chain.night() : chain.palette();
  }

  /** True while a unit is dark for want of a train. */
  boolean isDark(int unit) {
    return dark[unit];
  }

  /** What a chain is sent for each light at a time; null for those dark at that time. */
  private byte[][] sent(Chain chain, long millis) {
    List<Integer> palette = palette(chain);
    byte[][] sent = new byte[model.lights().size() + 1][];
    for (int light = 1; light < sent.length; light++) {
      Light meant = model.lights().get(light - 1);
      if (meant.rhythm() > 0) {
        Rhythm rhythm = model.rhythms().get(meant.rhythm() - 1);
        if (millis % rhythm.period() < rhythm.first() == meant.darkFirst()) {
          continue;
        }
      }
      sent[light] = new byte[chain.channels()];
      for (int i = 0; i < chain.channels(); i++) {
        sent[light][i] = palette.get((meant.colour() - 1) * chain.channels() + i).byteValue();
      }
    }
    return sent;
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

  private void takeBit(int unit, int index, int output) {
    Kind kind = kinds[unit];
    int bit = 1 << (kind.lowFirst() ? index : kind.addresses() - 1 - index);
    known[unit] |= bit;
    bits[unit] = (output == 1) == kind.oneIsNormal() ? bits[unit] | bit : bits[unit] & ~bit;
    if (known[unit] == (1 << kind.addresses()) - 1) {
      call(unit, bits[unit]);
    }
  }

  private void call(int unit, int value) {
    show(unit, kinds[unit].stateFor(value));
  }

  private void show(int unit, int state) {
    if (state >= 0) {
      states[unit] = state;
    } else if (!kinds[unit].keep()) {
      states[unit] = kinds[unit].rest();
    }
  }

  /** True when every unit shows the state at its place in an array. */
  boolean shows(int[] expected) {
    return Arrays.equals(states, expected);
  }

  /**
   * What a controller remembers: for each unit its state and whether it is dark, then bits received
   * and bits known.
   */
  byte[] memory() {
    byte[] memory = new byte[2 * states.length];
    for (int unit = 0; unit < states.length; unit++) {
      memory[2 * unit] = (byte) (states[unit] | (dark[unit] ? 0x80 : 0));
      memory[2 * unit + 1] = (byte) (known[unit] << 4 | bits[unit]);
    }
    return memory;
  }
}
