package dev.doublet.layout;

import dev.doublet.colour.Dimming;
import dev.doublet.colour.Drive;
import dev.doublet.colour.DriveSolver;
import dev.doublet.colour.LedFamily;
import dev.doublet.colour.Region;
import dev.doublet.colour.RegionSet;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** How a kind of LED is driven for the colours of a rulebook, where the layout does not say. */
final class Drives {
  private Drives() {}

  /**
   * A drive for each colour of the book that is or means a published one.
   *
   * @param evenly true to bring all of them down to the luminous intensity of the weakest
   */
  static SortedMap<String, List<Integer>> of(LedFamily family, Rulebook book, boolean evenly) {
    DriveSolver solver = new DriveSolver(family);
    RegionSet set = RegionSet.aimedAt(book.colourSet());
    Map<String, Optional<Drive>> known = new HashMap<>();
    SortedMap<String, Drive> drives = new TreeMap<>();
    for (Colour colour : book.colours()) {
      String published =
          set.region(colour.published()).map(Region::colour).orElse(colour.published());
      known
          .computeIfAbsent(published, name -> closest(solver, name, set))
          .ifPresent(drive -> drives.put(colour.name(), drive));
    }
    List<Drive> sent = new ArrayList<>(drives.values());
    if (evenly) {
      sent = Dimming.toWeakest(family, sent).stream().map(Dimming.Dimmed::drive).toList();
    }
    SortedMap<String, List<Integer>> levels = new TreeMap<>();
    for (String colour : drives.keySet()) {
      levels.put(colour, sent.get(levels.size()).levels());
    }
    return levels;
  }

  /** What the set makes of a colour; of one that it has not, what the others make. */
  private static Optional<Drive> closest(DriveSolver solver, String colour, RegionSet set) {
    Optional<Drive> closest = solver.solve(colour, set).closest();
    for (RegionSet other : RegionSet.published()) {
      if (closest.isEmpty() && other.region(colour).isPresent()) {
        closest = solver.solve(colour, other).closest();
      }
    }
    return closest;
  }
}
