package dev.doublet.check.failure;

import dev.doublet.colour.Channel;
import dev.doublet.colour.Chromaticity;
import dev.doublet.colour.Drive;
import dev.doublet.colour.LedFamily;
import dev.doublet.colour.RegionSet;
import dev.doublet.colour.Seeing;
import dev.doublet.layout.Part;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What is left of each colour of an LED when one of its dies is dead. The light that is left is
 * named by where it lies in the CIE 1931 diagram: by a colour of the book that it can hardly be
 * told from, or by the colour of a published region that it lies in.
 */
final class Dies {
  private final Map<String, List<Loss>> losses = new TreeMap<>();

  private Dies() {}

  /**
   * One die dead.
   *
   * @param die what it shone: "red"
   * @param colour what the light that is left is taken for; empty when for no colour of the book
   */
  record Loss(String die, String colour) {
    /** True when the light that is left is a colour of the book. */
    boolean isKnown() {
      return !colour.isEmpty();
    }
  }

  /** Works out what each colour of a part is left with. */
  static Dies of(Part part, Rulebook book) {
    LedFamily family = part.family();
    Map<String, Chromaticity> own = new TreeMap<>();
    for (Colour colour : book.colours()) {
      List<Integer> drive = part.drive().get(colour.name());
      if (drive != null && drive.stream().anyMatch(level -> level > 0)) {
        own.put(colour.name(), light(family, drive));
      }
    }
    Dies dies = new Dies();
    for (String colour : own.keySet()) {
      List<Integer> drive = part.drive().get(colour);
      if (new Drive(drive).lit() > 1) {
        dies.losses.put(colour, losses(family, drive, own, book));
      }
    }
    return dies;
  }

  /** The dies that a colour is mixed of, each dead in turn; none when one die makes it alone. */
  List<Loss> losses(String colour) {
    return losses.getOrDefault(colour, List.of());
  }

  private static List<Loss> losses(
      LedFamily family, List<Integer> drive, Map<String, Chromaticity> own, Rulebook book) {
    List<Loss> losses = new ArrayList<>();
    for (Channel channel : Channel.values()) {
      int die = channel.ordinal();
      if (die < drive.size() && drive.get(die) > 0) {
        List<Integer> left = new ArrayList<>(drive);
        left.set(die, 0);
        losses.add(new Loss(channel.toString(), named(light(family, left), own, book)));
      }
    }
    return losses;
  }

  private static String named(Chromaticity light, Map<String, Chromaticity> own, Rulebook book) {
    String nearest = "";
    double least = Double.POSITIVE_INFINITY;
    for (Colour colour : book.colours()) {
      Chromaticity known = own.get(colour.name());
      double far = known == null ? Double.MAX_VALUE : light.difference(known);
      if (far < least && (far < Seeing.APART || liesIn(light, colour.published()))) {
        nearest = colour.name();
        least = far;
      }
    }
    return nearest;
  }

  private static boolean liesIn(Chromaticity light, String published) {
    return RegionSet.published().stream()
        .flatMap(set -> set.region(published).stream())
        .anyMatch(region -> region.contains(light));
  }

  private static Chromaticity light(LedFamily family, List<Integer> drive) {
    return family.light(new Drive(drive)).chromaticity();
  }
}
