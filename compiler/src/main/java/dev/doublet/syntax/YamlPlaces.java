package dev.doublet.syntax;

import java.util.Arrays;

/** Turns the parser's places, which count code points, into indices of the text. */
final class YamlPlaces {
  private final int length;
  private final int[] pairs;

  /** Notes where the text's surrogate pairs are, counted in code points. */
  YamlPlaces(String text) {
    length = text.length();
    int[] found = new int[8];
    int count = 0;
    for (int i = 0; i < text.length(); i++) {
      if (Character.isHighSurrogate(text.charAt(i))) {
        if (count == found.length) {
          found = Arrays.copyOf(found, count * 2);
        }
        found[count] = i - count;
        count++;
        i++;
      }
    }
    pairs = Arrays.copyOf(found, count);
  }

  /** The index of a place counted in code points. */
  int index(long codePoints) {
    if (pairs.length == 0) {
      return (int) Math.min(codePoints, length);
    }
    int at = Arrays.binarySearch(pairs, (int) codePoints);
    return (int) Math.min(codePoints + (at >= 0 ? at : -at - 1), length);
  }

  /**
   * The first character that a YAML 1.2 text cannot hold (production 1, c-printable); -1 for none.
   */
  static int firstOddCharacter(String text) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c < 0x7F && (c >= ' ' || c == '\n' || c == '\r' || c == '\t')) {
        continue;
      }
      if (Character.isHighSurrogate(c)
          && i + 1 < text.length()
          && Character.isLowSurrogate(text.charAt(i + 1))) {
        i++;
      } else if (c < 0xA0 && c != 0x85 || Character.isSurrogate(c) || c >= 0xFFFE) {
        return i;
      }
    }
    return -1;
  }
}
