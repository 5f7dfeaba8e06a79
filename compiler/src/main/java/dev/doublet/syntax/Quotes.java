package dev.doublet.syntax;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.grammar.AspectsLexer;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.IntPredicate;
import java.util.function.Predicate;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/**
 * Finds the quotation mark that a line lacks. All others of the line seem to open where they close,
 * so the line is split into words again with a mark in each place where it may be missing, until
 * every text stands where one belongs.
 */
final class Quotes {
  /** Behind these a text stands, and before it nothing else. */
  private static final Set<Integer> BEFORE_TEXTS =
      Set.of(
          AspectsLexer.RULEBOOK,
          AspectsLexer.USE,
          AspectsLexer.ASPECT,
          AspectsLexer.WAS,
          AspectsLexer.INDICATES,
          AspectsLexer.BECAUSE);

  /** Behind these a text may stand. */
  private static final Set<Integer> BEFORE_SOME =
      Set.of(
          AspectsLexer.RULE,
          AspectsLexer.PLATE,
          AspectsLexer.WITH,
          AspectsLexer.AS,
          AspectsLexer.MEANS,
          AspectsLexer.THAN,
          AspectsLexer.AND,
          AspectsLexer.OF,
          AspectsLexer.EXPECT,
          AspectsLexer.COMMA);

  private final TextWords words;
  private final List<CommonToken> line;
  private final String text;
  private final int start;

  /**
   * Looks at one line.
   *
   * @param line its words, the last one a text that is not closed
   */
  Quotes(TextWords words, List<CommonToken> line) {
    this.words = words;
    this.line = line;
    this.start = line.get(0).getStartIndex();
    Span whole = words.span(line.get(0)).to(words.span(line.get(line.size() - 1)));
    this.text = whole.text();
  }

  /**
   * A line as it was meant.
   *
   * @param words with the text that was meant
   * @param mistake what is said of it
   */
  record Mended(List<CommonToken> words, Diagnostic mistake) {}

  /** The line with the mark that it lacks; empty when no place for it makes sense of the line. */
  Optional<Mended> mended() {
    return first(openings(BEFORE_TEXTS), Quotes::makesSense)
        .or(() -> first(openings(BEFORE_SOME), Quotes::makesSense))
        .or(() -> first(closings(c -> c == '{' || c == '}'), Quotes::makesSense))
        .or(() -> first(closings(Character::isLetter), Quotes::isWhole));
  }

  private Optional<Mended> first(List<Integer> places, Predicate<List<CommonToken>> test) {
    for (int place : places) {
      List<CommonToken> split = split(place);
      if (makesSense(split) && test.test(split)) {
        return Optional.of(new Mended(split, mistake(split, place)));
      }
    }
    return Optional.empty();
  }

  /** Where a text may begin behind some words, as indices of this one: the last first. */
  private List<Integer> openings(Set<Integer> kinds) {
    List<Integer> places = new ArrayList<>();
    for (int i = line.size() - 2; i >= 0; i--) {
      int next = line.get(i + 1).getType();
      boolean text = next == AspectsLexer.STRING || next == AspectsLexer.UNCLOSED_STRING;
      if (kinds.contains(line.get(i).getType()) && !text) {
        places.add(index(line.get(i + 1).getStartIndex()));
      }
    }
    return places;
  }

  /** Where a text may end before some letters. */
  private List<Integer> closings(IntPredicate letter) {
    List<Integer> places = new ArrayList<>();
    for (int i = text.indexOf('"') + 2; i < text.length(); i++) {
      if (letter.test(text.charAt(i)) && text.charAt(i - 1) == ' ') {
        places.add(text.substring(0, i).stripTrailing().length());
      }
    }
    return places;
  }

  /** The line's words with a mark put in at a place. */
  private List<CommonToken> split(int place) {
    String marked = text.substring(0, place) + '"' + text.substring(place);
    AspectsLexer lexer = new AspectsLexer(CharStreams.fromString(marked));
    lexer.removeErrorListeners();
    int mark = start + text.codePointCount(0, place);
    List<CommonToken> split = new ArrayList<>();
    for (Token token = lexer.nextToken(); token.getType() != Token.EOF; token = lexer.nextToken()) {
      CommonToken word = (CommonToken) token;
      String written = word.getText();
      int first = start + word.getStartIndex();
      int last = start + word.getStopIndex();
      word.setStartIndex(first > mark ? first - 1 : first);
      word.setStopIndex(last >= mark ? last - 1 : last);
      word.setLine(line.get(0).getLine());
      word.setText(written);
      if (word.getType() != AspectsLexer.COMMENT) {
        split.add(word);
      }
    }
    return split;
  }

  private static boolean makesSense(List<CommonToken> split) {
    for (int i = 0; i < split.size(); i++) {
      int kind = split.get(i).getType();
      boolean text = i + 1 < split.size() && split.get(i + 1).getType() == AspectsLexer.STRING;
      boolean none = kind == AspectsLexer.STRAY || kind == AspectsLexer.UNCLOSED_STRING;
      if (none || BEFORE_TEXTS.contains(kind) && !text) {
        return false;
      }
    }
    return true;
  }

  /** True when the line is a declaration, or several. */
  private static boolean isWhole(List<CommonToken> split) {
    List<CommonToken> whole = new ArrayList<>(split);
    whole.add(new CommonToken(Token.EOF, ""));
    return new Attempt(whole, 0).readsAll();
  }

  private Diagnostic mistake(List<CommonToken> split, int place) {
    int mark = start + text.codePointCount(0, place);
    for (CommonToken word : split) {
      Span span = words.span(word);
      if (word.getType() == AspectsLexer.STRING && word.getStartIndex() == mark) {
        return Explaining.unquoted(span.file().span(span.start(), span.end() - 1))
            .fix("open the text", span.file().span(span.start(), span.start()), "\"", false);
      }
    }
    Span at =
        words.span(
            split.stream().filter(w -> w.getStopIndex() == mark - 1).findFirst().orElseThrow());
    return Explaining.unclosedText(at);
  }

  private int index(int codePoint) {
    return text.offsetByCodePoints(0, codePoint - start);
  }
}
