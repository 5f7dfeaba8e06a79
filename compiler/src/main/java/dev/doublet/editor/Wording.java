package dev.doublet.editor;

import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A part of a text word by word, without white space and comments: two parts that are worded alike
 * say the same.
 *
 * @param words in their order
 * @param starts where each begins, as an index into the text
 */
record Wording(List<String> words, List<Integer> starts) {
  /** A text in quotation marks, a comment, or anything between white space and these. */
  private static final Pattern WORD =
      Pattern.compile("\"[^\"\\n]*\"?|'[^'\\n]*'?|#[^\\n]*|[{}\\[\\](),]|[^\\s\"'#{}\\[\\](),]+");

  static Wording of(SourceFile file, int start, int end) {
    List<String> words = new ArrayList<>();
    List<Integer> starts = new ArrayList<>();
    Matcher matcher = WORD.matcher(file.text()).region(start, end);
    while (matcher.find()) {
      if (matcher.group().charAt(0) != '#') {
        words.add(matcher.group());
        starts.add(matcher.start());
      }
    }
    return new Wording(words, starts);
  }

  static Wording of(Span span) {
    return of(span.file(), span.start(), span.end());
  }

  /** An index into this part as an index into another that is worded alike. */
  int moved(int offset, Wording other) {
    int word = 0;
    while (word + 1 < starts.size() && starts.get(word + 1) <= offset) {
      word++;
    }
    if (starts.isEmpty()) {
      return offset;
    }
    int inside = offset - starts.get(word);
    return other.starts.get(word) + Math.min(inside, words.get(word).length());
  }
}
