package dev.doublet.layout.read;

import dev.doublet.layout.Bus;
import dev.doublet.layout.Dimming;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Mast;
import dev.doublet.layout.Signal;
import java.util.List;
import java.util.Optional;

/**
 * What a signal is but for its name, its place and its addresses: signals that say the same share
 * one design.
 *
 * @param build how it is built
 * @param mast how high its heads stand
 * @param leds how many LEDs it has
 * @param units one for the whole signal, or one a head, top to bottom
 */
record Design(Signal.Build build, Mast mast, int leds, List<UnitDesign> units) {

  /** Copies the list. */
  Design {
    units = List.copyOf(units);
  }

  /**
   * What one command drives.
   *
   * @param place the name of the head's place; empty for a whole signal
   * @param offset its first LED, counted from the signal's first
   * @param kind what it has in common with others
   * @param bus where it listens
   * @param said what the head says; for a whole signal, what one of the signals said
   * @param dimming how bright its lamps are
   * @param unsaid what follows from elsewhere of its values; empty when all is said
   */
  record UnitDesign(
      String place,
      int offset,
      Kind kind,
      Bus bus,
      Section said,
      Dimming dimming,
      Optional<Pins.Unsaid> unsaid) {

    /** What it is called on a signal: as the signal, or "W3 bottom". */
    String nameOn(String signal) {
      return place.isEmpty() ? signal : signal + " " + place;
    }
  }
}
