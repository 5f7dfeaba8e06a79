package dev.doublet.table;

import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Unit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.IntStream;

/**
 * The records in which a reader looks up what one sort of command of a bus is for.
 *
 * @param records how many
 * @param reach of addresses: how many records are looked at; of events: how far before an event the
 *     first of its record may lie
 * @param bytes the records
 */
record Index(int records, long reach, Bytes bytes) {
  private static final int MOST_UNITS = 32;
  private static final int LISTED = 0x8000;

  /** A reader steps over units of mixed kinds one by one, so it is not to meet too many. */
  private static final int MOST_MIXED = 5;

  private static final int MOST_ADDRESSES = 256;
  private static final int ALL = 255;
  private static final int MOST_EVENTS = 255;

  /** A reader counts in sixteen bits how far an event lies behind a record's first. */
  private static final int FARTHEST = 65_534;

  /**
   * Part of an index.
   *
   * @param key the first key
   * @param unit the first unit
   * @param count how many units; 0 for one that is listed
   * @param place for a listed address its place among the unit's; for a listed event its state
   * @param step for events: how far the next unit's lie
   */
  private record Part(long key, int unit, int count, int place, int step) {
    static int compareEvents(Part one, Part other) {
      int keys = Long.compareUnsigned(one.key(), other.key());
      return keys != 0 ? keys : Integer.compare(one.unit(), other.unit());
    }
  }

  /** The units of a bus by their addresses. */
  static Index addresses(TableModel model, Cycles cycles, int bus) {
    List<Part> parts = new ArrayList<>();
    for (int unit : units(model, k -> k.bus() == bus)) {
      List<Long> key = model.units().get(unit).key();
      boolean listed = IntStream.range(1, key.size()).anyMatch(i -> key.get(i) != key.get(0) + i);
      for (int i = 0; i < (listed ? key.size() : 1); i++) {
        parts.add(new Part(key.get(i), unit, listed ? 0 : 1, i, 0));
      }
    }
    parts.sort(Comparator.comparingLong(Part::key).thenComparingInt(Part::unit));
    parts = folded(parts, model, cycles, (run, next) -> continues(model, run, next));
    Bytes bytes = new Bytes();
    for (Part part : parts) {
      boolean listed = part.count() == 0;
      bytes.u16((int) part.key() | (listed ? part.place() : part.count() - 1) << 11);
      bytes.u16(part.unit() | (listed ? LISTED : 0));
      bytes.add(cycles.run(kinds(model, part), Math.max(1, part.count())));
    }
    return new Index(parts.size(), looks(model, parts), bytes);
  }

  /** How many records a reader looks at, from the last that begins at most at an address. */
  private static int looks(TableModel model, List<Part> parts) {
    int most = 0;
    for (int i = 0; i < parts.size(); i++) {
      long last = parts.get(i).key() + addresses(model, parts.get(i)) - 1;
      int behind = i;
      while (behind < parts.size() && parts.get(behind).key() <= last) {
        behind++;
      }
      most = Math.max(most, behind - i);
    }
    return Math.min(most, ALL);
  }

  /** The units of a bus by their topics. */
  static Index topics(TableModel model, int bus) {
    List<Part> parts = new ArrayList<>();
    for (int unit : units(model, k -> k.bus() == bus)) {
      parts.add(new Part(model.units().get(unit).key().get(0), unit, 1, 0, 0));
    }
    parts.sort(Comparator.comparingLong(Part::key).thenComparingInt(Part::unit));
    Bytes bytes = new Bytes();
    for (Part part : parts) {
      bytes.u32((int) part.key()).u16(part.unit()).add(model.units().get(part.unit()).kind());
    }
    return new Index(parts.size(), 0, bytes);
  }

  /** The units of a bus by their events. */
  static Index events(TableModel model, Cycles cycles, int bus) {
    List<Part> parts = new ArrayList<>();
    for (int unit : units(model, k -> k.bus() == bus)) {
      List<Long> key = model.units().get(unit).key();
      boolean listed = model.kinds().get(model.units().get(unit).kind()).listed();
      for (int i = 0; i < key.size(); i++) {
        parts.add(new Part(key.get(i), unit, listed ? 0 : 1, i, 0));
      }
    }
    parts.sort(Part::compareEvents);
    parts = folded(parts, model, cycles, Index::stepsOn);
    Bytes bytes = new Bytes();
    long reach = 0;
    for (Part part : parts) {
      bytes.u64(part.key()).u16(part.count() == 0 ? part.place() : part.step());
      bytes.add(part.count(), cycles.run(kinds(model, part), Math.max(1, part.count())));
      bytes.u16(part.unit());
      if (part.count() > 0) {
        reach = Math.max(reach, (long) part.step() * (part.count() - 1) + 255);
      }
    }
    return new Index(parts.size(), reach, bytes);
  }

  /** Whether one part more goes on where a run ends: the run with it, or null. */
  private interface Rule {
    Part withOrNull(Part run, Part next);
  }

  private static List<Part> folded(List<Part> parts, TableModel model, Cycles cycles, Rule rule) {
    List<Part> folded = new ArrayList<>();
    for (Part part : parts) {
      Part last = folded.isEmpty() ? null : folded.get(folded.size() - 1);
      Part with =
          last == null
                  || last.count() == 0
                  || part.count() == 0
                  || part.unit() != last.unit() + last.count()
              ? null
              : rule.withOrNull(last, part);
      if (with != null && isRun(model, cycles, with)) {
        folded.set(folded.size() - 1, with);
      } else {
        folded.add(part);
      }
    }
    return folded;
  }

  private static boolean isRun(TableModel model, Cycles cycles, Part part) {
    List<Integer> kinds = kinds(model, part);
    int run = cycles.run(kinds, part.count());
    return cycles.covered(run, kinds, part.count()) == part.count()
        && (run == kinds.get(0) || part.count() <= MOST_MIXED);
  }

  private static Part continues(TableModel model, Part run, Part next) {
    int addresses = addresses(model, run);
    Part with = new Part(run.key(), run.unit(), run.count() + 1, 0, 0);
    boolean fits = with.count() <= MOST_UNITS && addresses(model, with) <= MOST_ADDRESSES;
    return fits && next.key() == run.key() + addresses ? with : null;
  }

  private static Part stepsOn(Part run, Part next) {
    long step = next.key() - run.key() - (long) run.step() * (run.count() - 1);
    boolean even = run.count() == 1 || step == run.step();
    boolean near = step >= 0 && step * run.count() + 255 <= FARTHEST;
    if (!even || !near || run.count() == MOST_EVENTS) {
      return null;
    }
    return new Part(run.key(), run.unit(), run.count() + 1, 0, (int) step);
  }

  private static int addresses(TableModel model, Part part) {
    return part.count() == 0
        ? 1
        : kinds(model, part).stream().mapToInt(k -> model.kinds().get(k).addresses()).sum();
  }

  private static List<Integer> kinds(TableModel model, Part part) {
    return model.units().subList(part.unit(), part.unit() + Math.max(1, part.count())).stream()
        .map(Unit::kind)
        .toList();
  }

  private static List<Integer> units(TableModel model, Predicate<Kind> those) {
    return IntStream.range(0, model.units().size())
        .filter(u -> those.test(model.kinds().get(model.units().get(u).kind())))
        .boxed()
        .toList();
  }
}
