package dev.doublet.table;

import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Spelling;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.table.TableFault.Reason;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Controllers of which no table is made, as a reader could not tell two things of them apart. */
final class Refusals {
  private Refusals() {}

  /**
   * Refuses a controller.
   *
   * @param units all of it, in the order of the table
   * @param buses those that they listen to
   * @throws TableFault when two of its things are one to a reader or in the header
   */
  static void ask(Controller controller, List<Unit> units, List<Bus> buses) throws TableFault {
    overlaps(units);
    likeTopics(units);
    likeSpellings("buses", buses.stream().map(Bus::name).toList());
    likeSpellings("chains", controller.chains().stream().map(Chain::name).toList());
    likeSpellings("signals", units.stream().map(Unit::name).toList());
  }

  /** Names that a sketch could not tell apart. */
  private static void likeSpellings(String what, List<String> names) throws TableFault {
    Map<String, String> seen = new TreeMap<>();
    for (String name : names) {
      String other = seen.put(Spelling.of(name), name);
      if (other != null) {
        throw new TableFault(
            Reason.NOT_COMPLETE,
            String.format(
                Locale.ROOT,
                "the %s \"%s\" and \"%s\" are both spelt %s in the header; rename one of them",
                what,
                other,
                name,
                Spelling.of(name)));
      }
    }
  }

  private static void likeTopics(List<Unit> units) throws TableFault {
    Map<String, Map<Integer, String>> seen = new TreeMap<>();
    for (Unit unit : units) {
      if (unit.kind().way() instanceof Way.Topic) {
        String topic = unit.command().topic();
        String other =
            seen.computeIfAbsent(unit.command().bus().name(), b -> new TreeMap<>())
                .put(Checksum.of(topic), topic);
        alike("topics", other, topic);
      }
    }
  }

  /**
   * Two texts of one checksum.
   *
   * @param otherOrNull the one that had it before; null where none had
   */
  static void alike(String what, String otherOrNull, String text) throws TableFault {
    if (otherOrNull != null && !otherOrNull.equals(text)) {
      throw new TableFault(
          Reason.SAME_CHECKSUM,
          String.format(
              Locale.ROOT,
              "the %s \"%s\" and \"%s\" have the same checksum; change one of them",
              what,
              otherOrNull,
              text));
    }
  }

  private static void overlaps(List<Unit> units) throws TableFault {
    Unit last = null;
    for (Unit unit : units) {
      if (unit.command().addresses().stream().distinct().count()
          < unit.command().addresses().size()) {
        throw new TableFault(
            Reason.NOT_COMPLETE, unit.name() + " has an address twice: one packet would do both");
      }
      if (unit.led() + unit.kind().leds() > unit.chain().leds()) {
        throw new TableFault(
            Reason.NOT_COMPLETE,
            String.format(
                Locale.ROOT,
                "%s reaches beyond the last LED of chain \"%s\"",
                unit.name(),
                unit.chain().name()));
      }
      if (last != null
          && last.chain().index() == unit.chain().index()
          && last.led() + last.kind().leds() > unit.led()) {
        throw new TableFault(
            Reason.NOT_COMPLETE,
            String.format(
                Locale.ROOT,
                "%s and %s share an LED of chain \"%s\"",
                last.name(),
                unit.name(),
                unit.chain().name()));
      }
      last = unit;
    }
  }
}
