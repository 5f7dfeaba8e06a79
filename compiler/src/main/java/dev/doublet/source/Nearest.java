package dev.doublet.source;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Finds the word somebody most likely meant. */
public final class Nearest {
  private Nearest() {}

  /**
   * The one candidate within a small edit distance of {@code word} (a third of its length, at least
   * one); empty when none is near or two are equally near. Swapped neighbours count as one edit.
   */
  public static Optional<String> to(String word, Collection<String> candidates) {
    int allowed = allowed(word);
    String best = null;
    int bestDistance = allowed + 1;
    boolean tie = false;
    for (String candidate : candidates) {
      int distance = distance(fold(word), fold(candidate), allowed);
      if (distance < bestDistance) {
        best = candidate;
        bestDistance = distance;
        tie = false;
      } else if (distance == bestDistance && !candidate.equals(best)) {
        tie = true;
      }
    }
    return best == null || tie ? Optional.empty() : Optional.of(best);
  }

  /**
   * All candidates within that distance, the nearest first and the longer first of equally near.
   */
  public static List<String> all(String word, Collection<String> candidates) {
    int allowed = allowed(word);
    return candidates.stream()
        .filter(c -> distance(fold(word), fold(c), allowed) <= allowed)
        .sorted(
            Comparator.comparingInt((String c) -> distance(fold(word), fold(c), allowed))
                .thenComparing(c -> -c.length())
                .thenComparing(Comparator.naturalOrder()))
        .toList();
  }

  private static int allowed(String word) {
    return Math.max(1, Math.min(word.length(), 64) / 3);
  }

  private static String fold(String word) {
    return word.toLowerCase(Locale.ROOT);
  }

  private static int distance(String a, String b, int allowed) {
    if (Math.abs(a.length() - b.length()) > allowed) {
      return allowed + 1;
    }
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      d[i][0] = i;
    }
    for (int j = 0; j <= b.length(); j++) {
      d[0][j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      for (int j = 1; j <= b.length(); j++) {
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        d[i][j] = Math.min(Math.min(d[i - 1][j], d[i][j - 1]) + 1, d[i - 1][j - 1] + change);
        boolean swapped =
            i > 1
                && j > 1
                && a.charAt(i - 1) == b.charAt(j - 2)
                && a.charAt(i - 2) == b.charAt(j - 1);
        if (swapped) {
          d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
        }
      }
    }
    return d[a.length()][b.length()];
  }
}
