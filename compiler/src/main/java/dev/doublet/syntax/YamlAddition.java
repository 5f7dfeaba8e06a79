package dev.doublet.syntax;

import dev.doublet.diagnostic.Fix;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.List;
import java.util.stream.Collectors;

/**
 * Keys that are added to a mapping of a YAML text in the style that it has, and nothing else of the
 * text changed.
 */
public final class YamlAddition {
  /** A list of keys and values that makes a longer line has a line for each. */
  private static final int LONGEST_LINE = 100;

  private YamlAddition() {}

  /**
   * A key with its value.
   *
   * @param value a single value; empty where the key has keys of its own
   * @param inner keys with single values
   */
  public record Key(String key, String value, List<Key> inner) {
    /** Copies the list. */
    public Key {
      inner = List.copyOf(inner);
    }

    /** A key with a single value, both as they are to be written. */
    public static Key of(String key, String value) {
      return new Key(key, value, List.of());
    }

    /** On one line. */
    @Override
    public String toString() {
      return key
          + ": "
          + (inner.isEmpty()
              ? value
              : inner.stream().map(Key::toString).collect(Collectors.joining(", ", "{", "}")));
    }
  }

  /**
   * The change that adds keys.
   *
   * @param mapping one of at least one key
   * @param after which of its entries they follow where each stands on a line of its own
   */
  public static Fix.Edit of(YamlNode.Mapping mapping, YamlNode.Entry after, List<Key> keys) {
    Span span = mapping.span();
    boolean braces = span.file().text().charAt(span.start()) == '{';
    return braces ? inBraces(mapping, keys) : onLines(after, keys);
  }

  private static Fix.Edit inBraces(YamlNode.Mapping mapping, List<Key> keys) {
    YamlNode.Entry last = mapping.entries().get(mapping.entries().size() - 1);
    int end = Math.max(last.value().span().end(), last.key().span().end());
    String text = keys.stream().map(k -> ", " + k).collect(Collectors.joining());
    return new Fix.Edit(mapping.span().file().span(end, end), text);
  }

  private static Fix.Edit onLines(YamlNode.Entry after, List<Key> keys) {
    SourceFile file = after.key().span().file();
    String text = file.text();
    int end = Math.max(after.value().span().end(), after.key().span().end());
    // A comment may stand after the value, and stays there.
    while (end < text.length() && text.charAt(end) != '\n' && text.charAt(end) != '\r') {
      end++;
    }
    boolean two = end < text.length() ? text.startsWith("\r\n", end) : text.contains("\r\n");
    String lineEnd = two ? "\r\n" : "\n";
    int column = after.key().span().start() - file.lineStart(after.key().span().from().line());
    String indent = lineEnd + " ".repeat(column);
    StringBuilder added = new StringBuilder();
    for (Key key : keys) {
      boolean fits = column + key.toString().length() <= LONGEST_LINE;
      if (fits || key.inner().isEmpty()) {
        added.append(indent).append(key);
      } else {
        added.append(indent).append(key.key()).append(':');
        key.inner().forEach(k -> added.append(indent).append("  ").append(k));
      }
    }
    return new Fix.Edit(file.span(end, end), added.toString());
  }
}
