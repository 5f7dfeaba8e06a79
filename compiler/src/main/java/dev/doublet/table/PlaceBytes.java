package dev.doublet.table;

import dev.doublet.table.TableModel.Unit;
import java.util.List;

/** How the units of a chain hang on it, in the fewest bytes that the cycles allow. */
final class PlaceBytes {
  private static final int LONGEST = 127;
  private static final int LOOSE = 0x80;
  private static final int DARK = 255;
  private static final int DARKEST = 0xFEFF;

  private final TableModel model;
  private final Cycles cycles;
  private final List<Unit> units;
  private final List<Integer> kinds;
  private final int[] dark;

  /**
   * Bytes that a chain's units take from one on.
   *
   * @param total those bytes
   * @param count units of the first run
   * @param loose whether each of them stands behind dark LEDs of its own
   */
  private record Choice(int total, int count, boolean loose) {}

  private PlaceBytes(TableModel model, Cycles cycles, List<Unit> units, int firstLed) {
    this.model = model;
    this.cycles = cycles;
    this.units = units;
    this.kinds = units.stream().map(Unit::kind).toList();
    this.dark = new int[units.size()];
    int led = firstLed;
    for (int i = 0; i < dark.length; i++) {
      dark[i] = units.get(i).led() - led;
      led += dark[i] + leds(units.get(i));
    }
  }

  /**
   * The places of a chain.
   *
   * @param units those that hang on it
   * @param firstLed its first LED, over all chains
   */
  static Bytes of(TableModel model, Cycles cycles, List<Unit> units, int firstLed) {
    return new PlaceBytes(model, cycles, units, firstLed).bytes();
  }

  private int leds(Unit unit) {
    return model.kinds().get(unit.kind()).look().leds();
  }

  private Bytes bytes() {
    Choice[] best = new Choice[units.size() + 1];
    best[units.size()] = new Choice(1, 0, false);
    for (int i = units.size() - 1; i >= 0; i--) {
      best[i] = choice(i, best);
    }
    Bytes bytes = new Bytes();
    for (int i = 0; i < units.size(); i += best[i].count()) {
      run(bytes, i, best[i]);
    }
    return bytes.add(0);
  }

  private Choice choice(int first, Choice[] best) {
    List<Integer> rest = kinds.subList(first, kinds.size());
    int most = cycles.covered(cycles.run(rest, LONGEST), rest, LONGEST);
    int before = dark[first] > DARK ? 3 : 0;
    Choice found = null;
    boolean apart = false;
    for (int count = 1; count <= most; count++) {
      int next = first + count - 1;
      apart |= count > 1 && dark[next] > 0;
      int behind = best[next + 1].total() + before;
      if (!apart && (found == null || behind + 3 <= found.total())) {
        found = new Choice(behind + 3, count, false);
      }
      if (count > 1 && dark[next] > DARK) {
        break;
      }
      if (behind + 2 + count < found.total()) {
        found = new Choice(behind + 2 + count, count, true);
      }
    }
    return found;
  }

  private void run(Bytes bytes, int first, Choice choice) {
    int skipped = dark[first];
    if (skipped > DARK) {
      bytes.add(LOOSE).u16(Math.min(skipped, DARKEST));
      skipped -= Math.min(skipped, DARKEST);
    }
    int run = cycles.run(kinds.subList(first, kinds.size()), choice.count());
    bytes.add(choice.count() | (choice.loose() ? LOOSE : 0), run, skipped);
    for (int i = 1; choice.loose() && i < choice.count(); i++) {
      bytes.add(dark[first + i]);
    }
  }
}
