package dev.doublet.layout;

import java.nio.charset.StandardCharsets;
import java.util.Locale;

/**
 * How names are spelt in C: letters and digits of ASCII as capitals, any other ASCII character as
 * an underscore, and each further one as an underscore and its code point in hexadecimal. So a
 * spelling depends on its name alone.
 */
public final class Spelling {
  private static final int ASCII = 128;

  private Spelling() {}

  /** A name as part of one of C. */
  public static String of(String name) {
    StringBuilder spelt = new StringBuilder();
    name.codePoints()
        .forEach(
            c -> {
              if (c >= ASCII) {
                spelt.append(String.format(Locale.ROOT, "_%04X", c));
              } else {
                spelt.append(Character.isLetterOrDigit(c) ? (char) Character.toUpperCase(c) : '_');
              }
            });
    return spelt.isEmpty() ? "_" : spelt.toString();
  }

  /**
   * What names have in common that must not stand side by side: those of one spelling, and those
   * that differ only in capital letters.
   */
  public static String alike(String name) {
    return of(name.toLowerCase(Locale.ROOT));
  }

  /** A text as a string of C, whatever is in it. */
  public static String string(String text) {
    StringBuilder string = new StringBuilder("\"");
    for (byte b : text.getBytes(StandardCharsets.UTF_8)) {
      boolean plain = b > ' ' && b < ASCII - 1 && b != '"' && b != '\\' && b != '?';
      string.append(
          plain ? String.valueOf((char) b) : String.format(Locale.ROOT, "\\%03o", b & 255));
    }
    return string.append('"').toString();
  }
}
