package dev.doublet.diagnostic;

import dev.doublet.source.Span;
import dev.doublet.source.Visible;

/**
 * A part of a text with a few words about it.
 *
 * @param span the part to underline
 * @param text what that part is; may be empty
 */
public record Label(Span span, String text) {
  /** Makes the words brief. */
  public Label {
    text = Visible.brief(text);
  }
}
