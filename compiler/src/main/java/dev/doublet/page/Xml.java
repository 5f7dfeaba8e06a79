package dev.doublet.page;

import dev.doublet.source.Visible;

/** Text as pages and pictures hold it. */
final class Xml {
  private Xml() {}

  /** Text that is shown as it is: no part of it is read as a tag, and nothing in it is unseen. */
  static String text(String text) {
    return Visible.line(text)
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;")
        .replace("'", "&#39;");
  }

  /** A length with at most one digit behind the point. */
  static String number(double value) {
    long tenths = Math.round(value * 10);
    return tenths % 10 == 0 ? Long.toString(tenths / 10) : Double.toString(tenths / 10.0);
  }
}
