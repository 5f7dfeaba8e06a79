package dev.doublet.page;

import dev.doublet.colour.Chromaticity;
import dev.doublet.colour.Drive;
import dev.doublet.colour.LedFamily;
import dev.doublet.colour.Screen;
import dev.doublet.colour.Xyz;
import dev.doublet.layout.Drives;
import dev.doublet.rulebook.Rulebook;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * The colours of a rulebook as they are drawn: the light of LEDs of a family, driven as a layout
 * drives them that does not say otherwise.
 *
 * @param family whose LEDs
 * @param byColour each colour that such LEDs can be driven for, by its name in the book
 */
record Inks(LedFamily family, SortedMap<String, Ink> byColour) {

  /**
   * One colour.
   *
   * @param xyz what an LED from the middle of the bins shines
   * @param screen how a screen shows it
   */
  record Ink(Xyz xyz, Screen screen) {
    Chromaticity light() {
      return xyz.chromaticity();
    }
  }

  /** The colours of a book on LEDs of which nobody says more than that they have three dies. */
  static Inks of(Rulebook book) {
    return of(book, LedFamily.published().get(0));
  }

  static Inks of(Rulebook book, LedFamily family) {
    SortedMap<String, Ink> inks = new TreeMap<>();
    for (var drive : Drives.of(family, book, Set.of(), false).entrySet()) {
      Xyz light = family.light(new Drive(drive.getValue()));
      inks.put(drive.getKey(), new Ink(light, Screen.of(light.chromaticity())));
    }
    return new Inks(family, inks);
  }

  /** How a colour is drawn; empty when no drive is known for it. */
  Optional<Ink> of(String colour) {
    return Optional.ofNullable(byColour.get(colour));
  }
}
