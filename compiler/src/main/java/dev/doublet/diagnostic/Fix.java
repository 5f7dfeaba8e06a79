package dev.doublet.diagnostic;

import dev.doublet.source.Span;
import java.util.List;

/**
 * A change of the text that would mend what a diagnostic found.
 *
 * @param title what the change does, as an order: "write yellow"
 * @param edits the parts to replace, at least one; no two of them overlap
 * @param safe true when the change is surely what the author meant, so that it may be made unasked
 */
public record Fix(String title, List<Edit> edits, boolean safe) {

  /** Copies the list. */
  public Fix {
    edits = List.copyOf(edits);
    if (edits.isEmpty()) {
      throw new IllegalArgumentException("a fix changes something: " + title);
    }
  }

  /** A change at one place. */
  public Fix(String title, Span span, String replacement, boolean safe) {
    this(title, List.of(new Edit(span, replacement)), safe);
  }

  /**
   * New characters for a part of a text.
   *
   * @param span the part; a point to insert at
   * @param replacement the new characters; empty to delete
   */
  public record Edit(Span span, String replacement) {

    /** True when both change the same characters, or one of them inserts within the other. */
    public boolean overlaps(Edit other) {
      boolean sameFile = span.file().name().equals(other.span.file().name());
      boolean apart = span.end() < other.span.start() || other.span.end() < span.start();
      boolean touch = span.end() == other.span.start() || other.span.end() == span.start();
      boolean points = span.start() == span.end() || other.span.start() == other.span.end();
      return sameFile && !apart && (!touch || points);
    }
  }
}
