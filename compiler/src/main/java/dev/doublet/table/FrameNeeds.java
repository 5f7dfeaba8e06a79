package dev.doublet.table;

import dev.doublet.layout.Board.Lamps;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What a reader works out for the units of a table, by what it takes longer with.
 *
 * @param fades true when some lamps glow or some vanes swing
 * @param more what every unit takes longer for, as the table needs it of the reader
 * @param hung units that cost alike
 */
public record FrameNeeds(boolean fades, Set<Lamps> more, List<Hung> hung) {
  /** Of no unit. */
  static final FrameNeeds NONE = new FrameNeeds(false, Set.of(), List.of());

  /** Copies set and list. */
  public FrameNeeds {
    more = Set.copyOf(more);
    hung = List.copyOf(hung);
  }

  /**
   * Units whose LEDs cost alike.
   *
   * @param lamps plain, at chips, or with a numeral
   * @param lights lights of each LED: 1, or one for each channel of a chip
   * @param units how many
   * @param others their LEDs but the first of each
   */
  public record Hung(Lamps lamps, int lights, int units, int others) {
    private Hung and(Hung more) {
      return new Hung(lamps, lights, units + more.units, others + more.others);
    }
  }

  /** Of all units of a table. */
  static FrameNeeds of(TableModel model) {
    Map<List<Object>, Hung> hung = new LinkedHashMap<>();
    Set<Lamps> more = EnumSet.noneOf(Lamps.class);
    boolean fades = false;
    for (TableModel.Unit unit : model.units()) {
      TableModel.Look look = model.kinds().get(unit.kind()).look();
      Lamps lamps = Lamps.PLAIN;
      if (look.each() > 1) {
        lamps = Lamps.CHIPS;
        more.add(Lamps.BESIDE_CHIPS);
      } else if (look.numeral().isAny()) {
        lamps = Lamps.NUMERALS;
        more.add(Lamps.BESIDE_NUMERALS);
      }
      if (unit.level() > 0) {
        more.add(Lamps.LEVELS);
      }
      fades |= !look.glows().isEmpty();
      hung.merge(
          List.of(lamps, look.each()), new Hung(lamps, look.each(), 1, look.leds() - 1), Hung::and);
    }
    return new FrameNeeds(fades, more, List.copyOf(hung.values()));
  }
}
