package dev.doublet.format;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/** What a rulebook is made of, as a regular expression finds it: no code of the compiler's. */
final class Pieces {
  /** A comment, a text, a mark or a word. */
  private static final Pattern PIECE =
      Pattern.compile(
          "#[^\\r\\n]*|\"[^\"\\r\\n]*\"|[{}(),]|[^ \\t\\x0B\\f\\r\\n\\u00A0\\uFEFF{}(),\"#]+");

  private static final Pattern BLANKS = Pattern.compile("[ \\t\\x0B\\f\\u00A0\\uFEFF]+$");

  private Pieces() {}

  /** All of them in order; comments without the blanks at their ends. */
  static List<String> of(String text) {
    return found(text).stream().map(m -> BLANKS.matcher(m.group()).replaceFirst("")).toList();
  }

  /** Where they are. */
  static List<MatchResult> found(String text) {
    return new ArrayList<>(PIECE.matcher(text).results().toList());
  }
}
