package dev.doublet.syntax;

import dev.doublet.grammar.AspectsLexer;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/** The words of one text, and where each lies in it. */
final class TextWords {
  private final SourceFile file;
  private final int[] offsets;
  private final List<CommonToken> tokens = new ArrayList<>();
  private final List<Comment> comments = new ArrayList<>();

  /** Splits a text into words; the last is the end of the text. */
  TextWords(SourceFile file) {
    this.file = file;
    this.offsets = offsets(file.text());
    AspectsLexer lexer = new AspectsLexer(CharStreams.fromString(file.text(), file.name()));
    lexer.removeErrorListeners();
    int type;
    do {
      CommonToken token = (CommonToken) lexer.nextToken();
      type = token.getType();
      if (type == AspectsLexer.COMMENT) {
        comments.add(new Comment(token.getText(), span(token)));
      } else {
        token.setTokenIndex(tokens.size());
        tokens.add(token);
      }
    } while (type != Token.EOF);
  }

  SourceFile file() {
    return file;
  }

  List<CommonToken> tokens() {
    return tokens;
  }

  List<Comment> comments() {
    return comments;
  }

  /** Where a word lies; the end of the text is a point. */
  Span span(Token token) {
    return file.span(offset(token.getStartIndex()), offset(token.getStopIndex() + 1));
  }

  Word word(Token token) {
    String text = token.getText();
    if (token.getType() == AspectsLexer.STRING) {
      text = text.substring(1, text.length() - 1);
    }
    return new Word(Normalizer.normalize(text, Normalizer.Form.NFC), span(token));
  }

  /** The names and texts that are written in a part of the text, whatever they were meant for. */
  List<Word> within(int from, int to) {
    List<Word> within = new ArrayList<>();
    for (CommonToken token : tokens) {
      int start = offset(token.getStartIndex());
      if (start < from || start >= to) {
        continue;
      }
      if (token.getType() == AspectsLexer.UNCLOSED_STRING) {
        String text = token.getText().substring(1).strip();
        within.add(new Word(Normalizer.normalize(text, Normalizer.Form.NFC), span(token)));
      } else if (token.getType() == AspectsLexer.STRING || Vocabulary.isWord(token)) {
        within.add(word(token));
      }
    }
    return within;
  }

  /** The words of the text from a place on. */
  List<Token> tokensFrom(int offset) {
    List<Token> from = new ArrayList<>();
    for (CommonToken token : tokens) {
      if (offset(token.getStartIndex()) >= offset) {
        from.add(token);
      }
    }
    return from;
  }

  private int offset(int codePoint) {
    return offsets.length == 0 ? codePoint : offsets[codePoint];
  }

  /** The parser counts code points, Java counts halves of some; empty when the two agree. */
  private static int[] offsets(String text) {
    int count = text.codePointCount(0, text.length());
    if (count == text.length()) {
      return new int[0];
    }
    int[] offsets = new int[count + 1];
    for (int i = 0, at = 0; i <= count; i++) {
      offsets[i] = at;
      at += at < text.length() ? Character.charCount(text.codePointAt(at)) : 0;
    }
    return offsets;
  }
}
