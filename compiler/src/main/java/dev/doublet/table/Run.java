package dev.doublet.table;

import dev.doublet.table.TableModel.KeyForm;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Unit;
import java.util.ArrayList;
import java.util.List;

/**
 * Units that continue one another and are written as one entry.
 *
 * @param first the first unit's place
 * @param count how many, 1 to 127
 * @param mixed true when the entry names each unit's kind, false when all are of one
 * @param step for events: how far each unit's base lies beyond the one before it
 */
record Run(int first, int count, boolean mixed, int step) {
  /** An entry counts in seven bits. */
  static final int LONGEST = 127;

  private static final int HIGHEST_STEP = 65_535;

  /**
   * Folds units into entries of the fewest bytes; of foldings as short, the one whose last entries
   * are longest.
   */
  static List<Run> fold(TableModel model) {
    int count = model.units().size();
    int[] bytes = new int[count + 1];
    Run[] last = new Run[count + 1];
    for (int i = 1; i <= count; i++) {
      bytes[i] = Integer.MAX_VALUE;
    }
    for (int first = 0; first < count; first++) {
      boolean mixed = false;
      int step = first + 1 < count ? step(model, first) : 0;
      for (int next = first; next < count && next - first < LONGEST; next++) {
        if (next > first && !continues(model, next - 1, step)) {
          break;
        }
        mixed |= model.units().get(next).kind() != model.units().get(first).kind();
        Run run = new Run(first, next - first + 1, mixed, next > first ? step : 0);
        int total = bytes[first] + run.size(model);
        if (total < bytes[next + 1]) {
          bytes[next + 1] = total;
          last[next + 1] = run;
        }
      }
    }
    List<Run> runs = new ArrayList<>();
    for (int end = count; end > 0; end = last[end].first()) {
      runs.add(0, last[end]);
    }
    return runs;
  }

  /** Bytes of the entry. */
  int size(TableModel model) {
    return 3 + (mixed ? count : 1) + keySize(keyForm(model));
  }

  KeyForm keyForm(TableModel model) {
    return kind(model, first).keyForm();
  }

  private int keySize(KeyForm form) {
    return switch (form) {
      case ADDRESS -> 2;
      case TOPIC -> 4 * count;
      case EVENT -> 10;
      case LIST -> 2 * count;
    };
  }

  /** True when the unit after this one stands where an entry would put it. */
  private static boolean continues(TableModel model, int place, int step) {
    Unit unit = model.units().get(place);
    Unit next = model.units().get(place + 1);
    Kind kind = kind(model, place);
    KeyForm form = kind.keyForm();
    if (form != kind(model, place + 1).keyForm() || next.led() != unit.led() + kind.look().leds()) {
      return false;
    }
    return switch (form) {
      case ADDRESS ->
          next.key().get(0) == (unit.key().get(0) + kind.addresses()) % TableModel.ADDRESSES;
      case EVENT -> next.key().get(0) == unit.key().get(0) + step;
      case TOPIC, LIST -> true;
    };
  }

  private static int step(TableModel model, int place) {
    if (kind(model, place).keyForm() != KeyForm.EVENT
        || kind(model, place + 1).keyForm() != KeyForm.EVENT) {
      return 0;
    }
    long step = model.units().get(place + 1).key().get(0) - model.units().get(place).key().get(0);
    return step < 0 || step > HIGHEST_STEP ? 0 : (int) step;
  }

  private static Kind kind(TableModel model, int place) {
    return model.kinds().get(model.units().get(place).kind());
  }
}
