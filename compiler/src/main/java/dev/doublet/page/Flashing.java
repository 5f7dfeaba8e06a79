package dev.doublet.page;

import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import java.util.List;

/**
 * Rhythms as a page plays them. Nothing flashes more than three times in any second (WCAG 2.2,
 * success criterion 2.3.1): a faster rhythm is played slower, and the page says so. Where less
 * motion is asked for, and on paper, lamps stand still with a broken ring round them.
 *
 * @param rhythms of a book, sorted by name
 */
record Flashing(List<Rhythm> rhythms) {
  /** A flash every 400 ms: at most three begin in any second, wherever the second begins. */
  static final int SHORTEST_MILLIS = 400;

  static Flashing of(Rulebook book) {
    return new Flashing(book.rhythms());
  }

  /** The class that makes a lamp flash; empty for one that is steady. */
  String cssClass(String rhythm) {
    for (int i = 0; i < rhythms.size(); i++) {
      if (rhythms.get(i).name().equals(rhythm)) {
        return "flash" + i;
      }
    }
    return "";
  }

  /** The time from one flash to the next on the page, in milliseconds. */
  static int playedMillis(Rhythm rhythm) {
    return Math.max(rhythm.periodMillis(), SHORTEST_MILLIS);
  }

  /** True when a rhythm is played slower than the book says. */
  static boolean isSlowed(Rhythm rhythm) {
    return playedMillis(rhythm) > rhythm.periodMillis();
  }

  /** The style that makes lamps flash, and lets them stand still. */
  String css() {
    StringBuilder css = new StringBuilder();
    for (int i = 0; i < rhythms.size(); i++) {
      Rhythm rhythm = rhythms.get(i);
      int part = rhythm.startsDark() ? 100 - rhythm.litPercent() : rhythm.litPercent();
      int first = rhythm.startsDark() ? 0 : 1;
      css.append("@keyframes flash").append(i);
      css.append("{0%{opacity:").append(first).append("}");
      css.append(part).append("%{opacity:").append(1 - first).append("}}\n");
      css.append(".flash").append(i).append("{animation:flash").append(i).append(' ');
      css.append(playedMillis(rhythm)).append("ms step-end infinite}\n");
    }
    return css.append("@media print,(prefers-reduced-motion:reduce){.lit{animation:none}}\n")
        .toString();
  }
}
