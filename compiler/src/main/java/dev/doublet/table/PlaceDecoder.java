package dev.doublet.table;

import dev.doublet.table.TableModel.Unit;
import java.util.List;

/**
 * Reads how units hang on a chain; part of {@link TableDecoder}.
 *
 * @param leds how many LEDs units of each kind have
 */
record PlaceDecoder(TableBytes table, List<Integer> leds, List<Integer> cycles) {

  /**
   * Adds the units of a chain, without their keys.
   *
   * @param place where its places begin
   * @param firstLed its first LED, over all chains
   * @param count how many it has
   */
  void hang(int place, int firstLed, int count, List<Unit> hung) throws TableFault {
    int at = place;
    int led = 0;
    int last = 0;
    for (int head = table.u8(at); head != 0; head = table.u8(at)) {
      if (head == 128) {
        int dark = table.u16(at + 1);
        TableFault.require(last != 128, "dark LEDs follow dark LEDs");
        TableFault.require(dark >= 1 && dark <= 65_279, "dark LEDs in a number that is kept");
        led += dark;
        at += 3;
        last = head;
        continue;
      }
      last = head;
      boolean apart = head > 128;
      int units = head & 0x7F;
      int run = table.u8(at + 1);
      for (int i = 0; i < units; i++) {
        led += apart || i == 0 ? table.u8(at + 2 + i) : 0;
        int kind = kind(run, i);
        hung.add(new Unit(kind, firstLed + led, List.of()));
        led += leds.get(kind);
      }
      at += apart ? 2 + units : 3;
    }
    TableFault.require(led <= count, "a chain's signals reach beyond its last LED");
    table.piece("places", place, at + 1 - place);
  }

  /** The kind of a unit of a run, the first being 0. */
  int kind(int run, int unit) throws TableFault {
    int kind = run;
    if (run >= 128) {
      int place = run - 128;
      TableFault.require(
          place < cycles.size() && cycles.get(place) < 128, "a run begins at no kind");
      for (int i = 0; i < unit; i++) {
        place++;
        if (cycles.get(place) >= 128) {
          place = cycles.get(place) - 128;
        }
      }
      kind = cycles.get(place);
    }
    TableFault.require(kind < leds.size(), "a signal is of an unknown kind");
    return kind;
  }
}
