package dev.doublet.page;

import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Pictures where nothing can be drawn, as in a comment on a forge: a coloured disc of Unicode for
 * each light that a head shows, always with words beside it.
 */
final class Disc {
  private static final String DARK = "\u26ab";

  /** Discs that Unicode has, by how screens usually paint them (our reading of common fonts). */
  private static final Map<String, int[]> DISCS =
      new TreeMap<>(
          Map.of(
              "\ud83d\udd34", new int[] {0xdd, 0x2e, 0x44},
              "\ud83d\udfe0", new int[] {0xf4, 0x90, 0x0c},
              "\ud83d\udfe1", new int[] {0xfd, 0xcb, 0x58},
              "\ud83d\udfe2", new int[] {0x3e, 0x92, 0x5a},
              "\ud83d\udd35", new int[] {0x55, 0xac, 0xee},
              "\ud83d\udfe3", new int[] {0xaa, 0x8e, 0xd6},
              "\u26aa", new int[] {0xe6, 0xe7, 0xe8}));

  private Disc() {}

  /** The discs of a picture, head by head from top to bottom: "🟠 🔴". */
  static String of(Shown shown, Inks inks) {
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
    if (lit.isEmpty()) {
      return DARK;
    }
    StringBuilder discs = new StringBuilder();
    lit.forEach(one -> discs.append(inks.of(one.colour()).map(Disc::nearest).orElse("\u26aa")));
    return discs.toString();
  }

  private static String nearest(Inks.Ink ink) {
    int[] own = {ink.screen().red(), ink.screen().green(), ink.screen().blue()};
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
