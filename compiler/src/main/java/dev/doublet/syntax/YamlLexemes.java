package dev.doublet.syntax;

import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.comments.CommentType;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.reader.StreamReader;
import org.yaml.snakeyaml.scanner.ScannerImpl;
import org.yaml.snakeyaml.tokens.CommentToken;
import org.yaml.snakeyaml.tokens.ScalarToken;
import org.yaml.snakeyaml.tokens.Token;

/** Splits YAML texts into lexemes. */
public final class YamlLexemes {
  private final SourceFile file;
  private final YamlPlaces places;
  private final List<YamlLexeme> lexemes = new ArrayList<>();
  private final Deque<Level> levels = new ArrayDeque<>();
  private int flows;
  private boolean awaited;

  /**
   * A block of keys or of dashes.
   *
   * @param steps how far in it stands
   */
  private record Level(int steps, boolean ofDashes) {}

  private YamlLexemes(SourceFile file) {
    this.file = file;
    this.places = new YamlPlaces(file.text());
  }

  /**
   * All lexemes of a text, in order, with the comments that the library finds.
   *
   * @return empty when it cannot be split
   */
  public static Optional<List<YamlLexeme>> of(SourceFile file) {
    LoaderOptions options = new LoaderOptions();
    options.setProcessComments(true);
    YamlLexemes lexemes = new YamlLexemes(file);
    try {
      // Where comments are wanted, the library splits a text that goes on in a last line without
      // end.
      String ended = file.text().endsWith("\n") ? file.text() : file.text() + "\n";
      ScannerImpl scanner = new ScannerImpl(new StreamReader(ended), options);
      while (scanner.checkToken()) {
        lexemes.take(scanner.getToken());
      }
    } catch (YAMLException fault) {
      return Optional.empty();
    }
    return Optional.of(lexemes.inOrder());
  }

  private void take(Token token) {
    switch (token.getTokenId()) {
      case StreamStart, StreamEnd -> {}
      case BlockMappingStart -> push(false);
      case BlockSequenceStart -> push(true);
      case BlockEnd -> levels.pop();
      case Key -> key(token);
      case Value -> {
        add(YamlLexeme.Kind.COLON, token);
        awaited = true;
      }
      case BlockEntry -> {
        awaited = false;
        add(YamlLexeme.Kind.DASH, token);
        awaited = true;
      }
      case FlowEntry -> {
        awaited = false;
        add(YamlLexeme.Kind.COMMA, token);
      }
      case FlowMappingStart, FlowSequenceStart -> {
        add(YamlLexeme.Kind.OPEN, token);
        flows++;
      }
      case FlowMappingEnd, FlowSequenceEnd -> {
        add(YamlLexeme.Kind.CLOSE, token);
        flows--;
      }
      case Scalar -> scalar((ScalarToken) token);
      case Comment -> comment((CommentToken) token);
      default -> add(YamlLexeme.Kind.OTHER, token);
    }
  }

  private void push(boolean ofDashes) {
    Level above = levels.peek();
    int steps = above == null ? 0 : above.steps + (ofDashes && !above.ofDashes ? 0 : 1);
    levels.push(new Level(steps, ofDashes));
    awaited = false;
  }

  /** A key that is not marked as one has no characters of its own. */
  private void key(Token token) {
    awaited = false;
    Span span = span(token);
    if (span.text().startsWith("?")) {
      add(YamlLexeme.Kind.OTHER, file.span(span.start(), span.start() + 1));
    }
  }

  private void scalar(ScalarToken token) {
    Span span = span(token);
    char first = span.start() < span.end() ? span.text().charAt(0) : ' ';
    boolean block = !token.getPlain() && (first == '|' || first == '>');
    add(block ? YamlLexeme.Kind.BLOCK : YamlLexeme.Kind.SCALAR, span);
  }

  private void comment(CommentToken token) {
    if (token.getCommentType() != CommentType.BLANK_LINE) {
      Span span = span(token);
      int end = span.start() + span.text().stripTrailing().length();
      Span text = file.span(span.start(), end);
      lexemes.add(new YamlLexeme(YamlLexeme.Kind.COMMENT, text, 0, flows > 0));
    }
  }

  private void add(YamlLexeme.Kind kind, Token token) {
    add(kind, span(token));
  }

  private void add(YamlLexeme.Kind kind, Span span) {
    Level level = levels.peek();
    int steps = (level == null ? 0 : level.steps) + (awaited ? 1 : 0);
    lexemes.add(new YamlLexeme(kind, span, flows > 0 ? 0 : steps, flows > 0));
    awaited = false;
  }

  private Span span(Token token) {
    int start = places.index(token.getStartMark().getIndex());
    int end = places.index(token.getEndMark().getIndex());
    return file.span(start, Math.max(start, end));
  }

  /** A comment behind the sign of a block of lines comes before it, and belongs to it. */
  private List<YamlLexeme> inOrder() {
    lexemes.sort(Comparator.comparingInt(l -> l.span().start()));
    List<YamlLexeme> ordered = new ArrayList<>(lexemes.size());
    int end = 0;
    for (int i = 0; i < lexemes.size(); i++) {
      YamlLexeme lexeme = lexemes.get(i);
      if (lexeme.span().start() >= end) {
        YamlLexeme whole = lexeme.kind() == YamlLexeme.Kind.BLOCK ? block(lexeme) : lexeme;
        ordered.add(whole);
        end = whole.span().end();
      }
    }
    return ordered;
  }

  /** A block of lines with its blank ones, which may belong to it, up to the end of the last. */
  private YamlLexeme block(YamlLexeme block) {
    String text = file.text();
    int end = block.span().start() + block.span().text().stripTrailing().length();
    int line = end;
    while (line < text.length() && Character.isWhitespace(text.charAt(line))) {
      if (text.charAt(line) == '\n' || text.charAt(line) == '\r') {
        boolean pair = text.startsWith("\r\n", line);
        end = line;
        line += pair ? 2 : 1;
      } else {
        line++;
      }
    }
    if (line == text.length()) {
      end = line;
    }
    Span span = file.span(block.span().start(), end);
    return new YamlLexeme(block.kind(), span, block.steps(), block.inFlow());
  }
}
