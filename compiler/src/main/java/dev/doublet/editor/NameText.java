package dev.doublet.editor;

import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.Span;

/** How a name is written. */
final class NameText {
  private NameText() {}

  /** A name in place of what stands there: in the same quotation marks, or in some where needed. */
  static String at(Span place, String name) {
    boolean layout = LayoutResolver.isLayout(place.file().name());
    String old = place.text();
    if (old.startsWith("\"")) {
      return '"' + (layout ? escaped(name) : name) + '"';
    }
    if (old.startsWith("'")) {
      return "'" + name.replace("'", "''") + "'";
    }
    boolean plain = name.matches("[\\p{L}\\p{Nd}_][\\p{L}\\p{M}\\p{Nd}_ ./-]*(?<! )");
    return plain || !layout ? name : '"' + escaped(name) + '"';
  }

  private static String escaped(String name) {
    return name.replace("\\", "\\\\").replace("\"", "\\\"");
  }
}
