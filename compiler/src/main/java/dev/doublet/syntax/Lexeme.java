package dev.doublet.syntax;

import dev.doublet.source.Span;

/**
 * A word, mark or comment of an .aspects text, and which parts of the grammar begin and end with
 * it. All of a text in order, with the white space between them, are the text.
 */
public final class Lexeme {
  private final Kind kind;
  private final String text;
  private final Span span;

  /** A bit for each rule of the grammar, and one for facts. */
  private final long opens;

  private final long closes;

  /**
   * Made by {@link Lexemes}.
   *
   * @param opens a bit for each rule of the grammar that begins here, by its number
   * @param closes the same of those that end here
   */
  Lexeme(Kind kind, String text, Span span, long opens, long closes) {
    this.kind = kind;
    this.text = text;
    this.span = span;
    this.opens = opens;
    this.closes = closes;
  }

  /** Kinds that differ in where white space may stand. */
  public enum Kind {
    /** A word, a name, a number, a date or a text in quotation marks. */
    WORD,
    /** An opening brace. */
    OPEN,
    /** A closing brace. */
    CLOSE,
    /** An opening bracket. */
    LEFT,
    /** A closing bracket. */
    RIGHT,
    /** A comma. */
    COMMA,
    /** A comment, which ends its line. */
    COMMENT
  }

  /** What it is. */
  public Kind kind() {
    return kind;
  }

  /** As written; a comment without the white space at its end. */
  public String text() {
    return text;
  }

  /** Where it is written. */
  public Span span() {
    return span;
  }

  /** True when it begins a part. */
  public boolean opens(Part part) {
    return (opens & Lexemes.bit(part)) != 0;
  }

  /** True when it ends a part. */
  public boolean closes(Part part) {
    return (closes & Lexemes.bit(part)) != 0;
  }

  /** True when another says the same in the same parts, wherever it stands. */
  public boolean says(Lexeme other) {
    return kind == other.kind
        && opens == other.opens
        && closes == other.closes
        && text.equals(other.text);
  }

  @Override
  public String toString() {
    return text;
  }
}
