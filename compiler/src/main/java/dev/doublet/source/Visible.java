package dev.doublet.source;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Text as it is shown. A stranger's text can hold characters that move a terminal's cursor, turn
 * the order of letters round, or cannot be seen at all; each is shown as its number instead.
 * Everything that leaves Doublet for a person goes through here.
 */
public final class Visible {
  /**
   * First and last of each run of characters that nobody sees: the property
   * Default_Ignorable_Code_Point of Unicode 16 (DerivedCoreProperties.txt), which Java does not
   * know, and anchors of annotations. A table, as what Java knows of Unicode differs from one Java
   * to the next, and the same input gives the same output.
   */
  private static final int[][] UNSEEN = {
    {0x00AD, 0x00AD}, {0x034F, 0x034F}, {0x061C, 0x061C}, {0x115F, 0x1160}, {0x17B4, 0x17B5},
    {0x180B, 0x180F}, {0x200B, 0x200F}, {0x202A, 0x202E}, {0x2060, 0x206F}, {0x3164, 0x3164},
    {0xFE00, 0xFE0F}, {0xFEFF, 0xFEFF}, {0xFFA0, 0xFFA0}, {0xFFF0, 0xFFFB}, {0x1BCA0, 0x1BCA3},
    {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF},
  };

  private static final int WORD = 100;
  private static final int TEXT = 1_000;
  private static final Pattern LONG_WORD = Pattern.compile("\\S{" + (WORD + 1) + ",}+");

  private Visible() {}

  /** The text with a number such as {@code <U+001B>} for each character that is not shown. */
  public static String of(String text) {
    StringBuilder shown = null;
    for (int i = 0; i < text.length(); ) {
      int character = text.codePointAt(i);
      int next = i + Character.charCount(character);
      if (character != '\n' && isHidden(character)) {
        if (shown == null) {
          shown = new StringBuilder(text.substring(0, i));
        }
        shown.append(character == '\t' ? " " : number(character));
      } else if (shown != null) {
        shown.appendCodePoint(character);
      }
      i = next;
    }
    return shown == null ? text : shown.toString();
  }

  /** The same, on one line. */
  public static String line(String text) {
    String shown = of(text);
    return shown.indexOf('\n') < 0 ? shown : shown.replace("\n", number('\n'));
  }

  /**
   * What people are told, without what nobody would read to its end: of a word of more than 100
   * letters the first are left, and of a text of more than 1,000.
   */
  public static String brief(String text) {
    if (text.length() <= WORD) {
      return text;
    }
    String brief =
        LONG_WORD
            .matcher(text)
            .replaceAll(word -> Matcher.quoteReplacement(brief(word.group(), WORD)));
    return brief(brief, TEXT);
  }

  /** The first letters of a text that has more than so many, of which the last is then "…". */
  public static String brief(String text, int letters) {
    return text.codePointCount(0, text.length()) <= letters
        ? text
        : text.substring(0, text.offsetByCodePoints(0, letters - 1)) + "\u2026";
  }

  /** A character by its number in Unicode: {@code <U+202E>}. */
  public static String number(int character) {
    return '<' + codePoint(character) + '>';
  }

  /** The number itself: {@code U+202E}. */
  public static String codePoint(int character) {
    return String.format(Locale.ROOT, "U+%04X", character);
  }

  /**
   * True for controls, marks of direction, ends of lines, halves of pairs and what has no shape.
   */
  public static boolean isHidden(int character) {
    if (character < 0xA0) {
      return character < ' ' || character >= 0x7F;
    }
    return character == 0x2028
        || character == 0x2029
        || character >= Character.MIN_SURROGATE && character <= Character.MAX_SURROGATE
        || character >= 0xFDD0 && character <= 0xFDEF
        || (character & 0xFFFE) == 0xFFFE
        || isUnseen(character);
  }

  private static boolean isUnseen(int character) {
    for (int[] run : UNSEEN) {
      if (character >= run[0] && character <= run[1]) {
        return true;
      }
    }
    return false;
  }
}
