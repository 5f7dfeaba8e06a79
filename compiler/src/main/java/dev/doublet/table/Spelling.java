package dev.doublet.table;

import java.nio.charset.StandardCharsets;
import java.util.Locale;

/**
 * How names are spelt in C: letters and digits of ASCII as capitals, any other ASCII character as
 * an underscore, and each further one as an underscore and its code point in hexadecimal. So a
 * spelling depends on its name alone.
 */
final class Spelling {
  private static final int ASCII = 128;

  private Spelling() {}

  static String of(String name) {
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

  /** A text as a string of C, whatever is in it. */
  static String string(String text) {
    StringBuilder string = new StringBuilder("\"");
    for (byte b : text.getBytes(StandardCharsets.UTF_8)) {
      boolean plain = b > ' ' && b < ASCII - 1 && b != '"' && b != '\\' && b != '?';
      string.append(
          plain ? String.valueOf((char) b) : String.format(Locale.ROOT, "\\%03o", b & 255));
    }
    return string.append('"').toString();
  }
}
