package dev.doublet.source;

import java.util.Comparator;

/**
 * A part of a text. Sorts by file name, then place.
 *
 * @param file the text
 * @param start index of the first character
 * @param end index after the last character; equal to {@code start} for a point
 */
public record Span(SourceFile file, int start, int end) implements Comparable<Span> {
  private static final Comparator<Span> ORDER =
      Comparator.comparing((Span span) -> span.file().name())
          .thenComparingInt(Span::start)
          .thenComparingInt(Span::end);

  /** Refuses a span that does not lie in its text. */
  public Span {
    if (start < 0 || end < start || end > file.text().length()) {
      throw new IllegalArgumentException(file.name() + " has no part " + start + " to " + end);
    }
  }

  /** The characters of this part. */
  public String text() {
    return file.text().substring(start, end);
  }

  /** True when another has the same characters. */
  public boolean says(Span other) {
    int length = end - start;
    return other.end - other.start == length
        && file.text().regionMatches(start, other.file.text(), other.start, length);
  }

  /** Where this part begins. */
  public Position from() {
    return file.position(start);
  }

  /** The smallest part that holds this one and another of the same file. */
  public Span to(Span other) {
    return new Span(file, Math.min(start, other.start), Math.max(end, other.end));
  }

  @Override
  public int compareTo(Span other) {
    return ORDER.compare(this, other);
  }
}
