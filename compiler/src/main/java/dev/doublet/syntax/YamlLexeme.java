package dev.doublet.syntax;

import dev.doublet.source.Span;

/**
 * A value, mark or comment of a YAML text. All of a text in order, with the white space between
 * them, are the text.
 *
 * @param kind what it is
 * @param span where; a block of lines takes the blank lines behind it too, and the end of a text
 * @param steps how many blocks of keys, and of dashes in dashes, it stands in beside the outermost:
 *     the dashes of a key's list count as standing where the key does; 0 for a comment
 * @param inFlow true between brackets or braces, and for those that close
 */
public record YamlLexeme(Kind kind, Span span, int steps, boolean inFlow) {

  /** Kinds that differ in where white space may stand. */
  public enum Kind {
    /** A key or a value of one line, or in quotation marks. */
    SCALAR,
    /** A text in a block of lines, which begins with {@code |} or {@code >}. */
    BLOCK,
    /** The dash before an item of a list. */
    DASH,
    /** The colon behind a key. */
    COLON,
    /** The comma between values in brackets. */
    COMMA,
    /** A bracket or brace that opens. */
    OPEN,
    /** A bracket or brace that closes. */
    CLOSE,
    /** A comment, which ends its line. */
    COMMENT,
    /** Anything else: marks of documents, types, names of values and references to them. */
    OTHER
  }

  /** True when another says the same in the same place, however far in it is written. */
  public boolean says(YamlLexeme other) {
    return kind == other.kind
        && steps == other.steps
        && inFlow == other.inFlow
        && span.says(other.span);
  }
}
