package dev.doublet.layout;

import dev.doublet.colour.Dimming;
import dev.doublet.colour.Drive;
import dev.doublet.colour.DriveAnswer;
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
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/** How a kind of LED is driven for the colours of a rulebook, where the layout does not say. */
public final class Drives {
  private Drives() {}

  /**
   * A drive for each colour of the book that is or means a published one.
   *
   * @param given colours that the layout says a drive for
   * @param evenly true to bring all of them down to the luminous intensity of the weakest
   */
  public static SortedMap<String, List<Integer>> of(
      LedFamily family, Rulebook book, Set<String> given, boolean evenly) {
    RegionSet set = RegionSet.aimedAt(book.colourSet());
    Map<String, Optional<Drive>> known = new HashMap<>();
    SortedMap<String, Drive> drives = new TreeMap<>();
    for (Colour colour : book.colours()) {
      if (!given.contains(colour.name())) {
        String published =
            set.region(colour.published()).map(Region::colour).orElse(colour.published());
        known
            .computeIfAbsent(published, name -> closest(family, name, set))
            .ifPresent(drive -> drives.put(colour.name(), drive));
      }
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

  private static Optional<Drive> closest(LedFamily family, String colour, RegionSet set) {
    return (set.region(colour).isPresent() ? Optional.of(set) : elsewhere(family, colour, set))
        .flatMap(aim -> new DriveSolver(family).closest(colour, aim));
  }

  /**
   * The set in which LEDs of the maker's bins reach a colour best, or else the first that has it:
   * those were searched for beforehand, while a search for measured LEDs takes its time.
   */
  private static Optional<RegionSet> elsewhere(LedFamily family, String colour, RegionSet set) {
    LedFamily binned = LedFamily.named(family.name()).orElse(family);
    DriveAnswer answer = new DriveSolver(binned).solve(colour, set);
    if (answer instanceof DriveAnswer.NotInSet other && !other.instead().isEmpty()) {
      return RegionSet.named(other.instead().get(0).set());
    }
    return RegionSet.published().stream().filter(s -> s.region(colour).isPresent()).findFirst();
  }
}
