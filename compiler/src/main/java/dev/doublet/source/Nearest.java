package dev.doublet.source;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Finds the word somebody most likely meant. */
public final class Nearest {
  /** In a word of so few letters, each makes all the difference. */
  private static final int SHORT = 3;

  private Nearest() {}

  /**
   * The one candidate within a small edit distance of {@code word} (a third of its length, at least
   * one); empty when none is near or two are equally near. Swapped neighbours count as one edit.
   */
  public static Optional<String> to(String word, Collection<String> candidates) {
    int allowed = allowed(word);
    String folded = fold(word);
    String best = null;
    int bestDistance = allowed + 1;
    boolean tie = false;
    for (String candidate : candidates) {
      int distance = distance(folded, fold(candidate), allowed);
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
   * True when the word near to another is surely what was meant: one slip of the finger apart and
   * no more than capital letters when it is short, with the same digits, and no other word nearly
   * as near.
   *
   * @param meant the one that {@link #to} gives
   */
  public static boolean isSure(String word, String meant, Collection<String> candidates) {
    String folded = fold(word);
    int most = Math.max(word.length(), meant.length()) > SHORT ? 1 : 0;
    int distance = distance(folded, fold(meant), most);
    return distance <= most
        && digits(word).equals(digits(meant))
        && candidates.stream()
            .filter(c -> !c.equals(meant))
            .allMatch(c -> distance(folded, fold(c), distance + 1) > distance + 1);
  }

  private static String digits(String word) {
    return word.replaceAll("\\P{Nd}", "");
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

  /** The edits between two words, or more than are allowed where they need more. */
  private static int distance(String a, String b, int allowed) {
    int far = allowed + 1;
    if (Math.abs(a.length() - b.length()) > allowed || lettersApart(a, b) > allowed) {
      return far;
    }
    int[] before = new int[b.length() + 1];
    int[] last = new int[b.length() + 1];
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      last[j] = j;
    }
    int leastOfLast = 0;
    for (int i = 1; i <= a.length(); i++) {
      row[0] = i;
      int least = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        row[j] = Math.min(Math.min(last[j], row[j - 1]) + 1, last[j - 1] + change);
        boolean swapped =
            i > 1
                && j > 1
                && a.charAt(i - 1) == b.charAt(j - 2)
                && a.charAt(i - 2) == b.charAt(j - 1);
        if (swapped) {
          row[j] = Math.min(row[j], before[j - 2] + 1);
        }
        least = Math.min(least, row[j]);
      }
      if (least > allowed && leastOfLast > allowed) {
        return far;
      }
      leastOfLast = least;
      int[] free = before;
      before = last;
      last = row;
      row = free;
    }
    return last[b.length()];
  }

  /** At most as many as the edits between two words: each edit brings or takes one letter. */
  private static int lettersApart(String a, String b) {
    long inA = letters(a);
    long inB = letters(b);
    return Math.max(Long.bitCount(inA & ~inB), Long.bitCount(inB & ~inA));
  }

  private static long letters(String word) {
    long letters = 0;
    for (int i = 0; i < word.length(); i++) {
      letters |= 1L << word.charAt(i) % Long.SIZE;
    }
    return letters;
  }
}
