package dev.doublet.syntax;

import java.util.regex.Pattern;

/** How a text is written as one value or key of YAML. */
public final class YamlText {
  /** What reads as itself in blocks and in braces, and as nothing but a text or a number. */
  private static final Pattern PLAIN =
      Pattern.compile("[\\p{L}\\p{Nd}/.+][\\p{L}\\p{Nd}/.+_&-]*( [\\p{L}\\p{Nd}/.+_&-]+)*");

  private YamlText() {}

  /** A text without quotes where it can do without. */
  public static String of(String text) {
    return PLAIN.matcher(text).matches() ? text : quoted(text);
  }

  /** The same in quotes if another, which it stands for, was. */
  public static String like(YamlNode.Scalar other, String text) {
    return other.quoted() ? quoted(text) : of(text);
  }

  private static String quoted(String text) {
    StringBuilder out = new StringBuilder("\"");
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '"' || c == '\\') {
        out.append('\\');
      }
      if (Character.isISOControl(c)) {
        out.append(String.format(java.util.Locale.ROOT, "\\u%04x", (int) c));
      } else {
        out.append(c);
      }
    }
    return out.append('"').toString();
  }
}
