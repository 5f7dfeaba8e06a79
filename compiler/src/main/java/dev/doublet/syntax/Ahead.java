package dev.doublet.syntax;

import dev.doublet.grammar.AspectsLexer;
import dev.doublet.grammar.AspectsParser;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.antlr.v4.runtime.BailErrorStrategy;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.ListTokenSource;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.atn.ATNState;
import org.antlr.v4.runtime.misc.IntervalSet;
import org.antlr.v4.runtime.misc.ParseCancellationException;
import org.antlr.v4.runtime.tree.ErrorNode;
import org.antlr.v4.runtime.tree.ParseTreeListener;
import org.antlr.v4.runtime.tree.TerminalNode;

/**
 * What may be written next at a place of an .aspects text, whatever stands after it.
 *
 * @param words words of the language that may stand there, in alphabetical order
 * @param name the grammar's rules around a name that may stand there, innermost first; nothing
 *     where none may
 * @param text the same for a text in quotation marks
 * @param before the words of the declaration so far
 */
public record Ahead(List<String> words, List<String> name, List<String> text, List<String> before) {
  private static final Ahead NOTHING = new Ahead(List.of(), List.of(), List.of(), List.of());

  /** Copies the lists. */
  public Ahead {
    words = List.copyOf(words);
    name = List.copyOf(name);
    text = List.copyOf(text);
    before = List.copyOf(before);
  }

  /**
   * What may stand at a place.
   *
   * @param offset behind the last word that counts
   * @return nothing where the declaration before it does not fit the grammar
   */
  public static Ahead at(SourceFile file, int offset) {
    List<CommonToken> tokens = new ArrayList<>();
    TextWords words = new TextWords(new SourceFile(file.name(), file.text().substring(0, offset)));
    for (CommonToken token : words.tokens()) {
      if (token.getType() != Token.EOF) {
        tokens.add(token);
      }
    }
    if (tokens.isEmpty()) {
      return new Ahead(literals(Vocabulary.DECLARATIONS), List.of(), List.of(), List.of());
    }
    for (int start = tokens.size() - 1; start >= 0; start--) {
      if (Vocabulary.DECLARATIONS.contains(tokens.get(start).getType())) {
        List<CommonToken> declaration = tokens.subList(start, tokens.size());
        Optional<IntervalSet> expected = new Reading(declaration).expected();
        if (expected.isPresent()) {
          return of(declaration, expected.get());
        }
      }
    }
    return NOTHING;
  }

  private static Ahead of(List<CommonToken> declaration, IntervalSet expected) {
    return new Ahead(
        literals(Vocabulary.kinds(expected)),
        around(declaration, expected, AspectsLexer.NAME),
        around(declaration, expected, AspectsLexer.STRING),
        declaration.stream().map(Token::getText).toList());
  }

  private static List<String> literals(Iterable<Integer> kinds) {
    List<String> literals = new ArrayList<>();
    for (int kind : kinds) {
      String word = Vocabulary.isFixed(kind) ? Vocabulary.sample(kind) : "";
      if (Vocabulary.kind(word).isPresent()) {
        literals.add(word);
      }
    }
    return literals.stream().sorted().toList();
  }

  /** The rules around a word of one kind, were it written there. */
  private static List<String> around(List<CommonToken> before, IntervalSet expected, int kind) {
    if (!expected.contains(kind)) {
      return List.of();
    }
    List<CommonToken> with = new ArrayList<>(before);
    with.add(new CommonToken(kind, Vocabulary.sample(kind)));
    Reading reading = new Reading(with);
    return reading.expected().isPresent() ? reading.rules : List.of();
  }

  /** A parse up to the last of some words, and what the grammar may go on with. */
  private static final class Reading implements ParseTreeListener {
    private final AspectsParser parser;
    private final int last;
    private final List<String> rules = new ArrayList<>();
    private IntervalSet expectedOrNull;

    Reading(List<CommonToken> tokens) {
      List<Token> copies = new ArrayList<>();
      tokens.forEach(token -> copies.add(new CommonToken(token)));
      last = copies.size() - 1;
      parser = new AspectsParser(new CommonTokenStream(new ListTokenSource(copies)));
      parser.removeErrorListeners();
      parser.setErrorHandler(new BailErrorStrategy());
      parser.addParseListener(this);
      try {
        parser.file();
      } catch (ParseCancellationException e) {
        // What comes after the last word is not there yet.
        parser.removeParseListener(this);
      }
    }

    /** What may follow the last word; empty when the grammar does not reach it. */
    Optional<IntervalSet> expected() {
      return Optional.ofNullable(expectedOrNull);
    }

    @Override
    public void visitTerminal(TerminalNode node) {
      if (node.getSymbol().getTokenIndex() != last) {
        return;
      }
      ATNState state = parser.getATN().states.get(parser.getState());
      ParserRuleContext context = parser.getContext();
      int next = state.transition(0).target.stateNumber;
      expectedOrNull = parser.getATN().getExpectedTokens(next, context);
      for (ParserRuleContext rule = context; rule != null; rule = rule.getParent()) {
        rules.add(parser.getRuleNames()[rule.getRuleIndex()]);
      }
    }

    @Override
    public void visitErrorNode(ErrorNode node) {}

    @Override
    public void enterEveryRule(ParserRuleContext context) {}

    @Override
    public void exitEveryRule(ParserRuleContext context) {}
  }
}
