package dev.doublet.source;

import java.util.Arrays;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;

/** One text with the name it is shown by; lines end at {@code \n}, {@code \r\n} or {@code \r}. */
public final class SourceFile {
  private final String name;
  private final String text;
  private final int[] lineStarts;

  /** What was made of the text, by what made it; null where nothing is kept. */
  private final Map<Function<SourceFile, ?>, Object> madeOrNull;

  /**
   * Names a text.
   *
   * @param name the path as the user would write it, with forward slashes
   * @param text the whole contents
   */
  public SourceFile(String name, String text) {
    this(name, text, findLineStarts(text), null);
  }

  private SourceFile(
      String name, String text, int[] lineStarts, Map<Function<SourceFile, ?>, Object> madeOrNull) {
    this.name = name;
    this.text = text;
    this.lineStarts = lineStarts;
    this.madeOrNull = madeOrNull;
  }

  /**
   * The same, for a text that is read again and again, as in an editor: what {@link #once} makes of
   * it is kept as long as this is.
   */
  public SourceFile kept() {
    return madeOrNull == null
        ? new SourceFile(name, text, lineStarts, new ConcurrentHashMap<>())
        : this;
  }

  /**
   * What is made of this text: of one that is {@linkplain #kept() kept}, only once.
   *
   * @param maker the same object each time; what it makes hangs on the text alone and never
   *     changes, and it asks for nothing else that is made of the same text
   */
  public <T> T once(Function<SourceFile, T> maker) {
    if (madeOrNull == null) {
      return maker.apply(this);
    }
    @SuppressWarnings("unchecked") // Only the maker itself puts anything beside its name.
    T made = (T) madeOrNull.computeIfAbsent(maker, m -> m.apply(this));
    return made;
  }

  /** The path as the user would write it. */
  public String name() {
    return name;
  }

  /** The whole contents. */
  public String text() {
    return text;
  }

  /** How many lines there are; an empty text has one. */
  public int lineCount() {
    return lineStarts.length;
  }

  /** A line's text without its end; {@code line} counts from 1. */
  public String line(int line) {
    int start = lineStarts[line - 1];
    int end = line < lineStarts.length ? lineStarts[line] : text.length();
    while (end > start && (text.charAt(end - 1) == '\n' || text.charAt(end - 1) == '\r')) {
      end--;
    }
    return text.substring(start, end);
  }

  /** Where a line begins, as an index into {@link #text()}; {@code line} counts from 1. */
  public int lineStart(int line) {
    return lineStarts[line - 1];
  }

  /**
   * The line and column of an index into {@link #text()}; the end of the text counts as a place.
   */
  public Position position(int offset) {
    return position(offset, Position.Counting.CODE_POINTS);
  }

  /** The same, with columns counted in one way or the other. */
  public Position position(int offset, Position.Counting counting) {
    int found = Arrays.binarySearch(lineStarts, offset);
    int line = found >= 0 ? found : -found - 2;
    int start = lineStarts[line];
    int before =
        counting == Position.Counting.UTF_16 ? offset - start : text.codePointCount(start, offset);
    return new Position(line + 1, before + 1);
  }

  /**
   * The index of a place in {@link #text()}. A line or column beyond the last is taken as the last;
   * no index lies between the two halves of a character.
   */
  public int offset(Position position, Position.Counting counting) {
    if (position.line() > lineStarts.length) {
      return text.length();
    }
    int line = Math.max(position.line(), 1);
    int start = lineStart(line);
    int end = start + line(line).length();
    int column = Math.max(position.column(), 1) - 1;
    if (counting == Position.Counting.UTF_16) {
      int at = start + Math.min(column, end - start);
      boolean halved =
          at > start
              && at < end
              && Character.isLowSurrogate(text.charAt(at))
              && Character.isHighSurrogate(text.charAt(at - 1));
      return halved ? at - 1 : at;
    }
    int count = Math.min(column, text.codePointCount(start, end));
    return text.offsetByCodePoints(start, count);
  }

  /** The part of this text from {@code start} up to, not including, {@code end}. */
  public Span span(int start, int end) {
    return new Span(this, start, end);
  }

  @Override
  public String toString() {
    return name;
  }

  private static int[] findLineStarts(String text) {
    int[] starts = new int[16];
    int count = 1;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      boolean ends =
          c == '\n' || (c == '\r' && !(i + 1 < text.length() && text.charAt(i + 1) == '\n'));
      if (ends) {
        if (count == starts.length) {
          starts = Arrays.copyOf(starts, count * 2);
        }
        starts[count++] = i + 1;
      }
    }
    return Arrays.copyOf(starts, count);
  }
}
