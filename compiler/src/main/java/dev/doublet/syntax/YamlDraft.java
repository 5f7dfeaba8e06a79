package dev.doublet.syntax;

import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A text with some of its items blanked out, for the parser to read past what is wrong with them.
 * It is as long as the text, so every place stays what it was.
 *
 * @param file the text
 * @param text with blanks
 * @param values values that were blanked, by the place of the word that stands for them
 * @param lost whole items that were blanked, in the order of the text
 */
record YamlDraft(SourceFile file, String text, Map<Integer, Span> values, List<Span> lost) {
  /** Over spaces the parser takes time that grows with the square of their number. */
  private static final String BLANK = "\n";

  /**
   * Nothing blanked out yet.
   *
   * @param text the file's, or as long and meant alike
   */
  static YamlDraft of(SourceFile file, String text) {
    return new YamlDraft(file, text, Map.of(), List.of());
  }

  /** The same without the value of an item; empty when it has none. */
  Optional<YamlDraft> withoutValue(YamlOutline.Item item) {
    int value = item.headEnd();
    while (value >= 0 && value < item.end() && Character.isWhitespace(file.text().charAt(value))) {
      value++;
    }
    int stand = item.headEnd() + 1;
    boolean none = value < 0 || value >= item.end() || stand > value || values.containsKey(stand);
    if (none) {
      return Optional.empty();
    }
    String blank = " ~" + BLANK.repeat(item.end() - stand - 1);
    Map<Integer, Span> more = new HashMap<>(values);
    more.keySet().removeIf(at -> at >= item.start() && at < item.end());
    more.put(stand, file.span(value, item.end()));
    return Optional.of(
        new YamlDraft(file, put(item.headEnd(), blank), more, outside(item.start(), item.end())));
  }

  /** The same without a whole item. */
  YamlDraft without(int start, int end) {
    Map<Integer, Span> fewer = new HashMap<>(values);
    fewer.keySet().removeIf(at -> at >= start && at < end);
    List<Span> more = outside(start, end);
    more.add(file.span(start, end));
    more.sort(Span::compareTo);
    return new YamlDraft(file, put(start, BLANK.repeat(end - start)), fewer, more);
  }

  /** True when nothing is left of a text. */
  boolean isBlank() {
    return !lost.isEmpty() && text.isBlank();
  }

  private List<Span> outside(int start, int end) {
    List<Span> outside = new ArrayList<>(lost);
    outside.removeIf(span -> span.start() >= start && span.end() <= end);
    return outside;
  }

  private String put(int at, String blank) {
    return text.substring(0, at) + blank + text.substring(at + blank.length());
  }
}
