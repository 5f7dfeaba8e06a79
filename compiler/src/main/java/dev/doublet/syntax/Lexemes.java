package dev.doublet.syntax;

import dev.doublet.grammar.AspectsLexer;
import dev.doublet.grammar.AspectsParser;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.misc.ParseCancellationException;
import org.antlr.v4.runtime.tree.ParseTree;
import org.antlr.v4.runtime.tree.TerminalNode;

/** Splits .aspects texts into lexemes. */
public final class Lexemes {
  /** The bit of a fact; no rule of the grammar has so high a number. */
  private static final long FACT = Long.MIN_VALUE;

  private static final long[] BITS = bits();
  private static final String[] WORDS = words();

  private final TextWords words;
  private final List<CommonToken> tokens;
  private final long[] opens;
  private final long[] closes;

  private Lexemes(TextWords words) {
    this.words = words;
    this.tokens = words.tokens();
    this.opens = new long[tokens.size()];
    this.closes = new long[tokens.size()];
  }

  /**
   * All lexemes of a text, in order.
   *
   * @return empty when it does not follow the grammar; {@link AspectsSyntax#parse} then says why
   */
  public static Optional<List<Lexeme>> of(SourceFile file) {
    if (!AspectsSyntax.isText(file)) {
      return Optional.empty();
    }
    Lexemes lexemes = new Lexemes(new TextWords(file));
    return lexemes.parse() ? Optional.of(lexemes.all()) : Optional.empty();
  }

  private boolean parse() {
    Attempt attempt = new Attempt(tokens, 0);
    try {
      while (!attempt.atEnd()) {
        mark(attempt.declaration());
      }
      return true;
    } catch (ParseCancellationException failure) {
      return false;
    }
  }

  /** No rule of the grammar holds itself, so a part begins or ends with a word once. */
  private void mark(ParserRuleContext context) {
    mark(context, 1L << context.getRuleIndex());
    boolean braced = false;
    for (ParseTree child : context.children) {
      if (child instanceof ParserRuleContext inner) {
        mark(inner);
        if (braced) {
          mark(inner, FACT);
        }
      } else {
        braced |=
            context.getRuleIndex() != AspectsParser.RULE_numeral
                && ((TerminalNode) child).getSymbol().getType() == AspectsLexer.OPEN;
      }
    }
  }

  private void mark(ParserRuleContext context, long bit) {
    opens[context.getStart().getTokenIndex()] |= bit;
    closes[context.getStop().getTokenIndex()] |= bit;
  }

  private List<Lexeme> all() {
    List<Lexeme> all = new ArrayList<>(tokens.size() + words.comments().size());
    int comment = 0;
    for (int i = 0; i < tokens.size(); i++) {
      CommonToken token = tokens.get(i);
      Span span = words.span(token);
      while (comment < words.comments().size()
          && words.comments().get(comment).span().start() <= span.start()) {
        all.add(remark(words.comments().get(comment++).span()));
      }
      if (token.getType() != Token.EOF) {
        all.add(new Lexeme(kind(i), text(token), span, opens[i], closes[i]));
      }
    }
    return all;
  }

  private static Lexeme remark(Span whole) {
    String text = whole.file().text();
    int end = whole.end();
    while (isBlank(text.charAt(end - 1))) {
      end--;
    }
    Span span = whole.file().span(whole.start(), end);
    return new Lexeme(Lexeme.Kind.COMMENT, span.text(), span, 0, 0);
  }

  /** What the grammar calls a space, within a line. */
  private static boolean isBlank(char c) {
    return " \t\u000B\f\u00A0\uFEFF".indexOf(c) >= 0;
  }

  /** The braces of a letter that stands for a number are close to it, as brackets are. */
  private Lexeme.Kind kind(int at) {
    long numeral = 1L << AspectsParser.RULE_numeral;
    return switch (tokens.get(at).getType()) {
      case AspectsLexer.OPEN -> (opens[at] & numeral) == 0 ? Lexeme.Kind.OPEN : Lexeme.Kind.LEFT;
      case AspectsLexer.CLOSE ->
          (closes[at] & numeral) == 0 ? Lexeme.Kind.CLOSE : Lexeme.Kind.RIGHT;
      case AspectsLexer.LEFT -> Lexeme.Kind.LEFT;
      case AspectsLexer.RIGHT -> Lexeme.Kind.RIGHT;
      case AspectsLexer.COMMA -> Lexeme.Kind.COMMA;
      default -> Lexeme.Kind.WORD;
    };
  }

  private static String text(Token token) {
    String word = WORDS[token.getType()];
    return word == null ? token.getText() : word;
  }

  static long bit(Part part) {
    return BITS[part.ordinal()];
  }

  private static long[] bits() {
    List<String> rules =
        Arrays.stream(AspectsParser.ruleNames).map(r -> r.toUpperCase(Locale.ROOT)).toList();
    long[] bits = new long[Part.values().length];
    for (Part part : Part.values()) {
      int rule = rules.indexOf(part.name());
      bits[part.ordinal()] = part == Part.FACT ? FACT : 1L << rule;
    }
    return bits;
  }

  /** Words of the language, which need not be cut out of the text each time. */
  private static String[] words() {
    String[] words = new String[AspectsLexer.VOCABULARY.getMaxTokenType() + 1];
    for (int i = 0; i < words.length; i++) {
      String literal = AspectsLexer.VOCABULARY.getLiteralName(i);
      words[i] = literal == null ? null : literal.substring(1, literal.length() - 1);
    }
    return words;
  }
}
