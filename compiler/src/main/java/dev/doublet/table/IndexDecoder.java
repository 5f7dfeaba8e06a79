package dev.doublet.table;

import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** Reads what commands of buses are for; part of {@link TableDecoder}. */
final class IndexDecoder {
  private static final int FARTHEST = 65_534;

  private final TableBytes table;
  private final SortedMap<Integer, Kind> kinds;
  private final PlaceDecoder runs;
  private final List<Unit> hung;
  private final List<SortedMap<Integer, Long>> keys = new ArrayList<>();

  /** Reads for units whose keys are not known yet. */
  IndexDecoder(
      TableBytes table, SortedMap<Integer, Kind> kinds, List<Integer> cycles, List<Unit> hung) {
    this.table = table;
    this.kinds = kinds;
    this.runs =
        new PlaceDecoder(table, kinds.values().stream().map(k -> k.look().leds()).toList(), cycles);
    this.hung = hung;
    hung.forEach(u -> keys.add(new TreeMap<>()));
  }

  /** Reads the index of a bus, which stands at a place. */
  void bus(int bus, int place) throws TableFault {
    int at = table.u16(place + 6);
    int count = table.u16(place + 8);
    int reach = table.u8(place + 10);
    int carries = table.u8(place) & 0x7F;
    int size = carries == 0 ? 5 : carries == 1 ? 7 : 14;
    table.piece("indices", at, count * size);
    if (carries == 0) {
      addresses(bus, at, count, reach);
      range(bus, table.u16(place + 2), table.u16(place + 4));
      return;
    }
    TableFault.require(reach == 0, "an index other than of addresses reaches in a byte");
    if (carries == 1) {
      TableFault.require(table.number(place + 2, 4) == 0, "an index of topics has a reach");
      topics(bus, at, count);
    } else {
      events(bus, at, count, table.number(place + 2, 4));
    }
  }

  private void addresses(int bus, int start, int count, int reach) throws TableFault {
    int looks = 0;
    int covers = 0;
    long last = -1;
    List<Integer> ends = new ArrayList<>();
    for (int at = start; at < start + 5 * count; at += 5) {
      int address = table.u16(at) & 2047;
      int number = table.u16(at) >> 11;
      int unit = table.u16(at + 2) & 0x7FFF;
      boolean listed = table.u16(at + 2) > 0x7FFF;
      long order = (long) address << 16 | unit;
      TableFault.require(order >= last, "addresses are out of order");
      last = order;
      int far = 0;
      for (int i = 0; i <= (listed ? 0 : number); i++) {
        Kind kind = take(unit + i, table.u8(at + 4), i, bus);
        if (listed) {
          key(unit, number, address, kind.addresses());
          continue;
        }
        for (int j = 0; j < kind.addresses(); j++, far++) {
          TableFault.require(address + far < 2048, "an address has more than eleven bits");
          key(unit + i, j, address + far, kind.addresses());
        }
      }
      ends.add(address + Math.max(1, far));
      while (ends.get(covers) <= address) {
        covers++;
      }
      looks = Math.max(looks, ends.size() - covers);
    }
    TableFault.require(reach == Math.min(looks, 255), "an index reaches otherwise");
  }

  /** The kind of a unit, which must be the one that the chain says, and on this bus. */
  private Kind take(int unit, int run, int place, int bus) throws TableFault {
    TableFault.require(unit < hung.size(), "a command is for a signal that is not there");
    int kind = runs.kind(run, place);
    TableFault.require(kind == hung.get(unit).kind(), "a signal is of two kinds");
    TableFault.require(kinds.get(kind).bus() == bus, "a signal is on two buses");
    return kinds.get(kind);
  }

  private void key(int unit, int place, long key, int most) throws TableFault {
    TableFault.require(place < most, "a signal has more keys than its kind");
    TableFault.require(
        keys.get(unit).putIfAbsent(place, key) == null, "a signal has one key twice");
  }

  private void range(int bus, int lowest, int highest) throws TableFault {
    long least = Long.MAX_VALUE;
    long most = -1;
    for (int unit = 0; unit < hung.size(); unit++) {
      if (kinds.get(hung.get(unit).kind()).bus() == bus) {
        for (long address : keys.get(unit).values()) {
          least = Math.min(least, address);
          most = Math.max(most, address);
        }
      }
    }
    boolean none = most < 0;
    TableFault.require(
        lowest == (none ? 1 : least) && highest == (none ? 0 : most),
        "a bus has another lowest or highest address");
  }

  private void topics(int bus, int start, int count) throws TableFault {
    long last = -1;
    int before = -1;
    for (int at = start; at < start + 7 * count; at += 7) {
      long topic = table.number(at, 4);
      int unit = table.u16(at + 4);
      TableFault.require(topic > last || topic == last && unit > before, "topics are out of order");
      last = topic;
      before = unit;
      TableFault.require(table.u8(at + 6) < 128, "a topic is of a run of kinds");
      take(unit, table.u8(at + 6), 0, bus);
      key(unit, 0, topic, 1);
    }
  }

  private void events(int bus, int start, int count, long reach) throws TableFault {
    long last = 0;
    int before = -1;
    long longest = 0;
    for (int at = start; at < start + 14 * count; at += 14) {
      long event = table.number(at, 8);
      int step = table.u16(at + 8);
      int units = table.u8(at + 10);
      int unit = table.u16(at + 12);
      int order = Long.compareUnsigned(event, last);
      TableFault.require(order > 0 || order == 0 && unit > before, "events are out of order");
      last = event;
      before = unit;
      if (units == 0) {
        TableFault.require(table.u8(at + 11) < 128, "a listed event is of a run of kinds");
        Kind kind = take(unit, table.u8(at + 11), 0, bus);
        int answers = table.u16(24) + 11 * table.u8(at + 11) + 4;
        TableFault.require(table.u16(answers) == 0, "listed events have answers");
        key(unit, step, event, kind.look().states().size());
        kinds.put(hung.get(unit).kind(), listed(kind));
        continue;
      }
      long far = (long) step * (units - 1) + 255;
      TableFault.require(
          Long.compareUnsigned(event, -1L - far) <= 0, "a record passes the last event");
      longest = Math.max(longest, far);
      for (int i = 0; i < units; i++) {
        Kind kind = take(unit + i, table.u8(at + 11), i, bus);
        TableFault.require(!kind.listed(), "a signal has events of both sorts");
        key(unit + i, 0, event + (long) step * i, 1);
      }
    }
    TableFault.require(
        reach == longest && reach <= FARTHEST, "an index reaches otherwise, or too far");
  }

  private static Kind listed(Kind kind) {
    return new Kind(
        kind.look(),
        kind.mode(),
        kind.bus(),
        kind.addresses(),
        kind.rest(),
        kind.oneIsNormal(),
        kind.lowFirst(),
        kind.settling(),
        kind.keep(),
        true,
        kind.onApproach(),
        List.of(),
        kind.names());
  }

  /** The units with all their keys. */
  List<Unit> units() throws TableFault {
    List<Unit> units = new ArrayList<>();
    for (int unit = 0; unit < hung.size(); unit++) {
      Unit there = hung.get(unit);
      Kind kind = kinds.get(there.kind());
      int should = kind.listed() ? kind.look().states().size() : Math.max(1, kind.addresses());
      TableFault.require(keys.get(unit).size() == should, "a signal lacks a key");
      long different = keys.get(unit).values().stream().distinct().count();
      TableFault.require(
          kind.addresses() == 0 || different == should, "a signal has an address twice");
      units.add(
          new Unit(there.kind(), there.led(), List.copyOf(keys.get(unit).values()), there.level()));
    }
    return units;
  }
}
