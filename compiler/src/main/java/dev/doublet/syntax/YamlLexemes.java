package dev.doublet.syntax;

import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.tokens.ScalarToken;
import org.yaml.snakeyaml.tokens.Token;

/**
 * The lexemes of a YAML text: the library's tokens that are written, and the comments in what it
 * leaves out between them.
 */
public final class YamlLexemes {
  /** What ends a line for the library, and so a comment. */
  private static final String LINE_ENDS = "\n\r\u0085\u2028\u2029";

  /** Texts that nest deeper are left to the reader to judge. */
  private static final int PLAINLY_DEEP = YamlParse.DEEPEST / 2;

  private static final char STRAY = Character.MAX_VALUE;

  private final SourceFile file;
  private final YamlPlaces places;

  /**
   * What every token is, by its number, and what blocks of lines say, which hangs on how far in
   * they stand. All else that a parser reads of them, the lexemes say. The dashes of a key's list
   * may stand further in than the key or not; the tokens that tell of that are left out.
   */
  private final StringBuilder tokens = new StringBuilder();

  /** True behind the colon of a key, until its value begins. */
  private boolean ofKey;

  /** True right behind the list of a key that stood further in than the key. */
  private boolean listEnded;

  private final List<YamlLexeme> lexemes = new ArrayList<>();
  private final Deque<Level> levels = new ArrayDeque<>();
  private int flows;
  private boolean awaited;
  private boolean keyBegins;

  /** The end of the last lexeme. */
  private int end;

  /** False once something was met that a layout has no use for. */
  private boolean plain = true;

  /**
   * A block of keys or of dashes.
   *
   * @param steps how far in it stands
   * @param ofKey true for the dashes of a key's list
   */
  private record Level(int steps, boolean ofDashes, boolean ofKey) {}

  private YamlLexemes(SourceFile file, BiConsumer<String, Consumer<Token>> splitting) {
    this.file = file;
    this.places = new YamlPlaces(file.text());
    splitting.accept(file.text(), this::take);
    comments(file.text().length());
  }

  /**
   * All lexemes of a text.
   *
   * @return empty when it is not YAML
   */
  public static Optional<YamlLexemes> of(SourceFile file) {
    try {
      return Optional.of(new YamlLexemes(file, YamlTokens::parse));
    } catch (YAMLException fault) {
      return Optional.empty();
    }
  }

  /** All of them, in order. */
  public List<YamlLexeme> all() {
    return lexemes;
  }

  /**
   * True when another text has the same lexemes in the same places, however far in they are
   * written, and is read alike.
   */
  public boolean areThoseOf(SourceFile text) {
    YamlLexemes other;
    try {
      other = new YamlLexemes(text, YamlTokens::split);
    } catch (YAMLException fault) {
      return false;
    }
    if (lexemes.size() != other.lexemes.size() || tokens.compareTo(other.tokens) != 0) {
      return false;
    }
    for (int i = 0; i < lexemes.size(); i++) {
      if (!lexemes.get(i).says(other.lexemes.get(i))) {
        return false;
      }
    }
    return true;
  }

  /**
   * True when {@link YamlReader} surely finds no fault of {@link dev.doublet.diagnostic.Tier#SYNTAX
   * syntax} in the text; where this is false only the reader knows.
   */
  public boolean areSurelyRead() {
    boolean says = lexemes.stream().anyMatch(l -> l.kind() != YamlLexeme.Kind.COMMENT);
    return plain && says && !YamlReader.hasOddities(file);
  }

  private void take(Token token) {
    note(token);
    plain &= !keyBegins || token.getTokenId() == Token.ID.Scalar;
    keyBegins = token.getTokenId() == Token.ID.Key;
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
        plain &= levels.size() + flows < PLAINLY_DEEP;
      }
      case FlowMappingEnd, FlowSequenceEnd -> {
        add(YamlLexeme.Kind.CLOSE, token);
        flows--;
      }
      case Scalar -> scalar((ScalarToken) token);
      default -> add(YamlLexeme.Kind.OTHER, token);
    }
    switch (token.getTokenId()) {
      case Value -> ofKey = true;
      case Anchor, Tag -> {}
      default -> ofKey = false;
    }
  }

  private void note(Token token) {
    Token.ID id = token.getTokenId();
    boolean ofList = id == Token.ID.BlockSequenceStart && ofKey;
    boolean endsList = id == Token.ID.BlockEnd && levels.peek().ofKey;
    // A dash right behind a list that stood further in belongs to nothing.
    boolean stray = listEnded && id == Token.ID.BlockEntry;
    if (stray) {
      tokens.append(STRAY);
    }
    if (!ofList && !endsList) {
      tokens.append((char) id.ordinal());
    }
    listEnded = endsList;
  }

  private void push(boolean ofDashes) {
    Level above = levels.peek();
    int steps = above == null ? 0 : above.steps + (ofDashes && !above.ofDashes ? 0 : 1);
    levels.push(new Level(steps, ofDashes, ofDashes && ofKey));
    plain &= levels.size() + flows < PLAINLY_DEEP;
    awaited = false;
  }

  /** A key that is not marked as one has no characters of its own. */
  private void key(Token token) {
    awaited = false;
    int start = span(token).start();
    if (file.text().startsWith("?", start)) {
      add(YamlLexeme.Kind.OTHER, file.span(start, start + 1));
    }
  }

  private void scalar(ScalarToken token) {
    Span span = span(token);
    char first = span.start() < span.end() ? file.text().charAt(span.start()) : ' ';
    if (!token.getPlain() && (first == '|' || first == '>')) {
      tokens.append(token.getValue());
      add(YamlLexeme.Kind.BLOCK, block(span));
    } else {
      add(YamlLexeme.Kind.SCALAR, span);
    }
  }

  private void add(YamlLexeme.Kind kind, Token token) {
    add(kind, span(token));
  }

  private void add(YamlLexeme.Kind kind, Span span) {
    comments(span.start());
    Level level = levels.peek();
    int steps = (level == null ? 0 : level.steps) + (awaited ? 1 : 0);
    lexemes.add(new YamlLexeme(kind, span, flows > 0 ? 0 : steps, flows > 0));
    plain &= kind != YamlLexeme.Kind.OTHER;
    awaited = false;
    end = Math.max(end, span.end());
  }

  /** The comments from the last lexeme to a place; nothing else is written there. */
  private void comments(int to) {
    String text = file.text();
    for (int i = end; i < to; i++) {
      if (text.charAt(i) == '#') {
        int start = i;
        int last = i;
        for (; i < to && LINE_ENDS.indexOf(text.charAt(i)) < 0; i++) {
          last = Character.isWhitespace(text.charAt(i)) ? last : i;
        }
        Span span = file.span(start, last + 1);
        lexemes.add(new YamlLexeme(YamlLexeme.Kind.COMMENT, span, 0, flows > 0));
      }
    }
  }

  private Span span(Token token) {
    int start = places.index(token.getStartMark().getIndex());
    int end = places.index(token.getEndMark().getIndex());
    return file.span(start, Math.max(start, end));
  }

  /** A block of lines with its blank ones, which may belong to it, up to the end of the last. */
  private Span block(Span block) {
    String text = file.text();
    int end = block.start() + block.text().stripTrailing().length();
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
    return file.span(block.start(), line == text.length() ? line : end);
  }
}
