package dev.doublet.table;

import dev.doublet.bus.Accessory;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Kind.Otherwise;
import dev.doublet.layout.Mode;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import java.util.List;

/**
 * What a controller must do, straight from the layout: no table, and nothing of how one is made. It
 * holds state, as {@link TableReader} does.
 */
final class Expectation {
  private static final int EVERY_UNIT = 2047;

  private final Rulebook book;
  private final Controller controller;
  private final List<Unit> units;
  private final int[] states;
  private final Boolean[][] bits;
  private final List<List<Integer>> addresses;

  Expectation(Rulebook book, Controller controller) {
    this.book = book;
    this.controller = controller;
    this.units = Lowering.order(controller);
    this.states = units.stream().mapToInt(u -> u.kind().rest()).toArray();
    this.bits = new Boolean[units.size()][16];
    this.addresses =
        units.stream()
            .map(
                u ->
                    u.command().addresses().stream()
                        .map(a -> Accessory.binary(a, u.command().bus().firstDecoder()))
                        .toList())
            .toList();
  }

  List<Unit> units() {
    return units;
  }

  /** The binary addresses of a unit. */
  List<Integer> addresses(int unit) {
    return addresses.get(unit);
  }

  int state(int unit) {
    return states[unit];
  }

  /** Takes a command, as all that follow; returns how many units it is for. */
  int extended(Bus bus, int address, int value) {
    int taken = 0;
    for (int unit = 0; unit < states.length; unit++) {
      if (hears(unit, bus, Mode.ASPECT_NUMBER)
          && (address == EVERY_UNIT || addresses.get(unit).get(0) == address)) {
        show(unit, value < 1 << bus.aspectBits() ? stateFor(unit, value) : -1);
        taken++;
      }
    }
    return taken;
  }

  int basic(Bus bus, int address, boolean normal) {
    int taken = 0;
    for (int unit = 0; unit < states.length; unit++) {
      Kind kind = units.get(unit).kind();
      boolean binary = hears(unit, bus, Mode.BINARY_CODED);
      if (!binary && !hears(unit, bus, Mode.ONE_PER_OUTPUT)) {
        continue;
      }
      for (int i = 0; i < addresses.get(unit).size(); i++) {
        if (addresses.get(unit).get(i) != address) {
          continue;
        }
        if (binary) {
          bits[unit][i] = normal == kind.oneIsNormal();
          number(unit);
        } else {
          show(unit, stateFor(unit, 2 * i + (normal ? 1 : 0)));
        }
      }
      taken += addresses.get(unit).contains(address) ? 1 : 0;
    }
    return taken;
  }

  /** Calls up the number that the bits make, once all have been received. */
  private void number(int unit) {
    Kind kind = units.get(unit).kind();
    int value = 0;
    for (int i = 0; i < kind.addresses(); i++) {
      Boolean bit = bits[unit][kind.lowFirst() ? kind.addresses() - 1 - i : i];
      if (bit == null) {
        return;
      }
      value = 2 * value + (bit ? 1 : 0);
    }
    show(unit, stateFor(unit, value));
  }

  int topic(Bus bus, String topic, String payload) {
    int taken = 0;
    for (int unit = 0; unit < states.length; unit++) {
      Kind kind = units.get(unit).kind();
      if (hears(unit, bus, Mode.TOPIC) && units.get(unit).command().topic().equals(topic)) {
        boolean number = payload.matches("0*[0-9]{1,3}");
        if (kind.byName()) {
          show(unit, kind.stateNames().indexOf(payload));
        } else {
          show(unit, number ? stateFor(unit, Integer.parseInt(payload)) : -1);
        }
        taken++;
      }
    }
    return taken;
  }

  int event(Bus bus, long event) {
    int taken = 0;
    for (int unit = 0; unit < states.length; unit++) {
      int state = units.get(unit).command().events().indexOf(event);
      if (hears(unit, bus, Mode.EVENT) && state >= 0) {
        states[unit] = state;
        taken++;
      }
    }
    return taken;
  }

  /** The bytes for a chain's LEDs. */
  byte[] leds(Chain chain, long millis) {
    String order = chain.part().order();
    byte[] bytes = new byte[chain.leds() * order.length()];
    for (int unit = 0; unit < states.length; unit++) {
      if (units.get(unit).chain().index() != chain.index()) {
        continue;
      }
      int at = units.get(unit).led() * order.length();
      for (Display display : units.get(unit).kind().states().get(states[unit]).lit()) {
        for (char channel : order.toCharArray()) {
          bytes[at++] = (byte) drive(chain, display, "RGBW".indexOf(channel), millis);
        }
      }
    }
    return bytes;
  }

  private long drive(Chain chain, Display display, int channel, long millis) {
    if (display.look().equals("dark")) {
      return 0;
    }
    if (!display.rhythm().isEmpty()) {
      Rhythm rhythm = book.rhythm(display.rhythm()).orElseThrow();
      if (millis % rhythm.periodMillis() >= rhythm.litMillis()) {
        return 0;
      }
    }
    int full = chain.part().drive().get(display.look()).get(channel);
    return full == 0 ? 0 : Math.max(1, Math.round(full * chain.brightness() / 100.0));
  }

  Controller controller() {
    return controller;
  }

  private boolean hears(int unit, Bus bus, Mode mode) {
    return units.get(unit).kind().mode() == mode && units.get(unit).command().bus().equals(bus);
  }

  private int stateFor(int unit, int value) {
    for (Answer answer : units.get(unit).kind().answers()) {
      if (answer.value() == value) {
        return answer.state();
      }
    }
    return -1;
  }

  private void show(int unit, int state) {
    Kind kind = units.get(unit).kind();
    if (state >= 0) {
      states[unit] = state;
    } else if (kind.otherwise() != Otherwise.KEEP) {
      states[unit] = kind.rest();
    }
  }
}
