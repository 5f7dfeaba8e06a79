package dev.doublet.editor;

import dev.doublet.source.Span;

/**
 * Something that may be written where the cursor stands.
 *
 * @param text what is written, quotation marks and all
 * @param sort what it is
 * @param meaning what it means, in one line; may be empty
 * @param place what it takes the place of: the word at the cursor, as far as it is written, and the
 *     closing quotation mark where it stands at the cursor
 */
public record Proposal(String text, Sort sort, String meaning, Span place) {

  /** What can be proposed. */
  public enum Sort {
    /** A word of the language, or one that a key takes. */
    WORD,
    /** A key of a layout. */
    KEY,
    /** A name that is declared somewhere. */
    NAME,
    /** Displays of all heads of a form. */
    PATTERN
  }
}
