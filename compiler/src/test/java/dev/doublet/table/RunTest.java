package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RunTest {

  /** Against every way of cutting the units into entries, each written and measured. */
  @Test
  void noOtherFoldingTakesFewerBytes() {
    Random random = new Random(9);
    for (int i = 0; i < 300; i++) {
      TableModel model = Samples.lower(RandomController.of(random));
      int count = Math.min(9, model.units().size());
      TableModel few =
          new TableModel(
              model.edition(),
              model.colours(),
              model.buses(),
              model.chains(),
              model.rhythms(),
              model.lights(),
              model.kinds(),
              model.units().subList(0, count));
      int least = Integer.MAX_VALUE;
      for (int cuts = 0; cuts < 1 << Math.max(0, count - 1); cuts++) {
        least = Math.min(least, bytesCutAt(few, cuts));
      }
      assertThat(Run.fold(few).stream().mapToInt(r -> r.size(few)).sum()).isEqualTo(least);
    }
  }

  /** Bytes of the entries when there is a cut after each unit whose bit is set. */
  private static int bytesCutAt(TableModel model, int cuts) {
    int bytes = 0;
    int first = 0;
    for (int unit = 0; unit < model.units().size(); unit++) {
      if (unit + 1 == model.units().size() || (cuts >> unit & 1) == 1) {
        int size = bytesOfOneEntry(model, first, unit + 1);
        if (size < 0) {
          return Integer.MAX_VALUE;
        }
        bytes += size;
        first = unit + 1;
      }
    }
    return bytes;
  }

  /** Bytes of one entry for some units, by the page on the format; -1 when they make none. */
  private static int bytesOfOneEntry(TableModel model, int first, int end) {
    List<TableModel.Unit> units = model.units().subList(first, end);
    TableModel.Kind kind = model.kinds().get(units.get(0).kind());
    boolean mixed = units.stream().anyMatch(u -> u.kind() != units.get(0).kind());
    long step = units.size() < 2 ? 0 : units.get(1).key().get(0) - units.get(0).key().get(0);
    for (int i = 1; i < units.size(); i++) {
      TableModel.Kind last = model.kinds().get(units.get(i - 1).kind());
      TableModel.Kind next = model.kinds().get(units.get(i).kind());
      long gap = units.get(i).key().get(0) - units.get(i - 1).key().get(0);
      boolean keys =
          switch (last.keyForm()) {
            case ADDRESS -> Math.floorMod(gap, 2048) == last.addresses();
            case EVENT -> gap == step && step >= 0 && step <= 65_535;
            case TOPIC, LIST -> true;
          };
      if (last.keyForm() != next.keyForm()
          || !keys
          || units.get(i).led() != units.get(i - 1).led() + last.look().leds()) {
        return -1;
      }
    }
    int key =
        switch (kind.keyForm()) {
          case ADDRESS -> 2;
          case TOPIC -> 4 * units.size();
          case EVENT -> 10;
          case LIST -> 2 * units.size();
        };
    return 3 + (mixed ? units.size() : 1) + key;
  }
}
