package dev.doublet.syntax;

import java.util.ArrayList;
import java.util.List;
import org.antlr.v4.runtime.CommonToken;

/**
 * A small change of the words of a text that may make it fit the grammar.
 *
 * @param cause what mistake it would mend
 * @param at the first word changed
 * @param removed how many words go
 * @param put the words that come instead
 */
record Edit(Cause cause, int at, int removed, List<CommonToken> put) {

  /** The kinds of mistake, the most telling first. */
  enum Cause {
    /** A word of the language is misspelt. */
    MISSPELT,
    /** Two words without a space between them. */
    GLUED,
    /** A word is written twice. */
    DOUBLED,
    /** A name is written where the language has a word of its own. */
    RESERVED,
    /** A name is in quotation marks. */
    QUOTED,
    /** A text is not in quotation marks. */
    UNQUOTED,
    /** A comma too many. */
    COMMA,
    /** A word of another kind is needed. */
    OTHER,
    /** A word is missing. */
    MISSING,
    /** A word too many. */
    EXTRA
  }

  /** Changes a list of words. */
  void apply(List<CommonToken> words) {
    List<CommonToken> part = words.subList(at, at + removed);
    part.clear();
    words.addAll(at, put);
  }

  /** The same words changed, from one place up to another, as a new list. */
  List<CommonToken> window(List<CommonToken> words, int from, int to) {
    List<CommonToken> window = new ArrayList<>(words.subList(from, at));
    window.addAll(put);
    window.addAll(words.subList(Math.min(at + removed, to), to));
    return window;
  }

  /** How many words the change adds. */
  int growth() {
    return put.size() - removed;
  }
}
