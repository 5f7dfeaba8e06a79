package dev.doublet.page;

import dev.doublet.colour.Chromaticity;
import dev.doublet.colour.RegionSet;
import dev.doublet.colour.Screen;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Pictures where nothing can be drawn, as in a comment on a forge: a coloured disc of Unicode for
 * each light that a head shows, always with words beside it. A light that lies in a published
 * region of one signal colour gets the disc of that colour, as yellow signals shine amber, which
 * screens paint orange; any other the disc nearest in hue.
 */
final class Disc {
  private static final String DARK = "\u26ab";

  /** A light whose colour no LED here can be driven for. */
  private static final String UNKNOWN = "\u25cb";

  private static final String RED = "\ud83d\udd34";
  private static final String YELLOW = "\ud83d\udfe1";
  private static final String GREEN = "\ud83d\udfe2";
  private static final String BLUE = "\ud83d\udd35";
  private static final String PURPLE = "\ud83d\udfe3";
  private static final String WHITE = "\u26aa";

  /** The discs of signal colours, by the names of their regions. */
  private static final Map<String, String> SIGNAL_COLOURS =
      Map.of(
          "red", RED, "yellow", YELLOW, "green", GREEN, "blue", BLUE, "purple", PURPLE, "white",
          WHITE);

  /** Discs that Unicode has, by how screens usually paint them (our reading of common fonts). */
  private static final Map<String, int[]> DISCS =
      new TreeMap<>(
          Map.of(
              RED,
              new int[] {0xdd, 0x2e, 0x44},
              "\ud83d\udfe0",
              new int[] {0xf4, 0x90, 0x0c},
              YELLOW,
              new int[] {0xfd, 0xcb, 0x58},
              GREEN,
              new int[] {0x3e, 0x92, 0x5a},
              BLUE,
              new int[] {0x55, 0xac, 0xee},
              PURPLE,
              new int[] {0xaa, 0x8e, 0xd6},
              WHITE,
              new int[] {0xe6, 0xe7, 0xe8}));

  private Disc() {}

  /** The discs of a picture, head by head from top to bottom: "🟠 🔴". */
  static String of(SignalPicture shown, Inks inks) {
    StringBuilder discs = new StringBuilder();
    for (int i = 0; i < shown.displays().size(); i++) {
      discs
          .append(i == 0 ? "" : " ")
          .append(of(shown.displays().get(i), shown.heads().get(i), inks));
    }
    return discs.toString();
  }

  private static String of(Display display, Optional<HeadType> make, Inks inks) {
    List<Lit> lit = make.flatMap(m -> m.lights(display.look())).orElse(List.of());
    if (make.isEmpty() && !display.equals(Display.DARK)) {
      return inks.of(display.look()).map(Disc::of).orElse(UNKNOWN);
    }
    if (lit.isEmpty()) {
      return DARK;
    }
    StringBuilder discs = new StringBuilder();
    lit.forEach(one -> discs.append(inks.of(one.colour()).map(Disc::of).orElse(UNKNOWN)));
    return discs.toString();
  }

  private static String of(Inks.Ink ink) {
    Set<String> regions = regions(ink.light());
    return regions.size() == 1 ? regions.iterator().next() : nearest(ink.screen());
  }

  /** The discs of all signal colours in whose regions a light lies, by any publication. */
  static Set<String> regions(Chromaticity light) {
    Set<String> regions = new TreeSet<>();
    for (RegionSet set : RegionSet.published()) {
      set.regions().stream()
          .filter(region -> SIGNAL_COLOURS.containsKey(region.colour()))
          .filter(region -> region.contains(light))
          .forEach(region -> regions.add(SIGNAL_COLOURS.get(region.colour())));
    }
    return regions;
  }

  private static String nearest(Screen screen) {
    int[] own = {screen.red(), screen.green(), screen.blue()};
    return DISCS.entrySet().stream()
        .min(Comparator.comparingDouble(disc -> hueDistance(own, disc.getValue())))
        .orElseThrow()
        .getKey();
  }

  /** How far two colours are apart in hue and saturation; brightness tells discs nothing. */
  private static double hueDistance(int[] one, int[] other) {
    double sum = 0;
    for (int i = 0; i < 3; i++) {
      double difference = one[i] / (double) most(one) - other[i] / (double) most(other);
      sum += difference * difference;
    }
    return sum;
  }

  private static int most(int[] levels) {
    return Math.max(1, Math.max(levels[0], Math.max(levels[1], levels[2])));
  }
}
