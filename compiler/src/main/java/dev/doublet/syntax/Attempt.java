package dev.doublet.syntax;

import dev.doublet.grammar.AspectsParser;
import dev.doublet.grammar.AspectsParser.DeclarationContext;
import java.util.ArrayList;
import java.util.List;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.DefaultErrorStrategy;
import org.antlr.v4.runtime.ListTokenSource;
import org.antlr.v4.runtime.Parser;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.RecognitionException;
import org.antlr.v4.runtime.RuleContext;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.misc.IntervalSet;
import org.antlr.v4.runtime.misc.ParseCancellationException;

/** Reads declarations from some words, one by one, up to the first word that does not fit. */
final class Attempt {
  private final AspectsParser parser;
  private final Stopping stopping;
  private final int from;
  private int next;

  /**
   * Prepares to read.
   *
   * @param words the words of a text
   * @param from where the first declaration begins
   */
  Attempt(List<CommonToken> words, int from) {
    this(words, from, -1);
  }

  private Attempt(List<CommonToken> words, int from, int watched) {
    this.from = from;
    this.next = from;
    this.stopping = new Stopping(watched - from);
    ListTokenSource source = new ListTokenSource(words.subList(from, words.size()));
    this.parser = new AspectsParser(new CommonTokenStream(source));
    parser.removeErrorListeners();
    parser.setErrorHandler(stopping);
  }

  /** True when all words are read. */
  boolean atEnd() {
    return parser.getInputStream().LA(1) == Token.EOF;
  }

  /** Where the next declaration begins, or where the one that failed began. */
  int next() {
    return next;
  }

  /** The first word that does not fit, after a failure. */
  int failedAt() {
    return from + parser.getInputStream().index();
  }

  /**
   * Reads one declaration.
   *
   * @throws ParseCancellationException when it does not fit the grammar
   */
  DeclarationContext declaration() {
    DeclarationContext context = parser.declaration();
    next = failedAt();
    return context;
  }

  /** Reads declarations until the end or a failure; true at the end. */
  boolean readsAll() {
    try {
      while (!atEnd()) {
        declaration();
      }
      return true;
    } catch (ParseCancellationException failure) {
      return false;
    }
  }

  /** What would have fitted at the word where reading fails, and in which rules that is. */
  static Failure explain(List<CommonToken> words, int from, int failedAt) {
    Attempt again = new Attempt(words, from, failedAt);
    again.readsAll();
    List<Open> open = new ArrayList<>();
    for (RuleContext at = again.stopping.context; at != null; at = at.parent) {
      int start = from + ((ParserRuleContext) at).getStart().getTokenIndex();
      open.add(new Open(at.getRuleIndex(), start));
    }
    return new Failure(failedAt, again.stopping.expected, open);
  }

  /**
   * Why reading failed.
   *
   * @param at the first word that does not fit
   * @param expected the kinds of word that would have fitted
   * @param open the rules being read, the innermost first
   */
  record Failure(int at, IntervalSet expected, List<Open> open) {

    /** True when a declaration could have begun at that word. */
    boolean isBetweenDeclarations() {
      return expected.contains(AspectsParser.ASPECT);
    }
  }

  /**
   * A rule being read.
   *
   * @param rule which
   * @param start its first word
   */
  record Open(int rule, int start) {}

  /** Gives up at the first mistake, having noted what would have fitted there. */
  private static final class Stopping extends DefaultErrorStrategy {
    private final int watched;
    private final IntervalSet expected = new IntervalSet();
    private ParserRuleContext context;

    Stopping(int watched) {
      this.watched = watched;
    }

    @Override
    public void sync(Parser parser) {
      if (parser.getInputStream().index() == watched) {
        expected.addAll(parser.getATN().getExpectedTokens(parser.getState(), parser.getContext()));
      }
    }

    @Override
    public Token recoverInline(Parser parser) {
      sync(parser);
      throw stop(parser, null);
    }

    @Override
    public void recover(Parser parser, RecognitionException mistake) {
      throw stop(parser, mistake);
    }

    @Override
    public void reportError(Parser parser, RecognitionException mistake) {
      // Said by whoever mends the text.
    }

    private ParseCancellationException stop(Parser parser, RecognitionException mistake) {
      context = parser.getContext();
      return new ParseCancellationException(mistake);
    }
  }
}
