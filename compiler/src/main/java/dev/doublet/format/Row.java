package dev.doublet.format;

import dev.doublet.syntax.Lexeme;
import dev.doublet.syntax.Part;
import java.util.List;
import java.util.Set;

/**
 * A declaration, or the head or a fact of one: it stands on one line where it fits, else on as few
 * as its breaks allow. Patterns, choices, movements, exceptions and texts are never broken, but by
 * a comment.
 */
final class Row {
  /** Words that may begin a line, wherever they stand outside patterns and movements. */
  private static final Set<String> BEGIN_LINES =
      Set.of(
          "and", "because", "else", "except", "lights", "means", "more", "less", "on", "or", "show",
          "shows", "than", "then", "turns", "with", "without");

  private static final List<Part> UNBROKEN = List.of(Part.PATTERN, Part.MOVEMENT, Part.PROVISO);

  private final List<Lexeme> lexemes;
  private final Setting setting;
  private final int from;
  private final int to;
  private final int indent;

  /**
   * A part of a text.
   *
   * @param from its first piece
   * @param to behind its last one
   * @param indent how far in it stands
   */
  Row(List<Lexeme> lexemes, Setting setting, int from, int to, int indent) {
    this.lexemes = lexemes;
    this.setting = setting;
    this.from = from;
    this.to = to;
    this.indent = indent;
  }

  int from() {
    return from;
  }

  int to() {
    return to;
  }

  /** True where a fact begins. */
  boolean isFact(int at) {
    return lexemes.get(at).opens(Part.FACT);
  }

  /** True when it can stand on one line. */
  boolean fits() {
    int column = indent + setting.width(from);
    for (int i = from + 1; i < to; i++) {
      if (setting.isRemark(i)) {
        return false;
      }
      column += gap(i) + setting.width(i);
    }
    return column <= Setting.LINE;
  }

  /** Sets it below what stands before it. */
  void set(int lines) {
    setting.putBelow(from, lines, indent);
    if (fits()) {
      for (int i = from + 1; i < to; i++) {
        setting.putBehind(i, gap(i));
      }
    } else {
      fill();
    }
  }

  private void fill() {
    int column = indent + setting.width(from);
    boolean shown = false;
    int under = indent + RulebookForm.INDENT;
    boolean[] breaks = breaks();
    for (int i = from + 1; i < to; i++) {
      int gap = gap(i);
      boolean alternative = shown && breaks[i] && is(i, "or");
      boolean below =
          setting.isRemark(i - 1)
              || setting.isRemark(i)
              || breaks[i] && (alternative || column + gap + length(i, breaks) > Setting.LINE);
      if (below) {
        int further = alternative ? under : indent + RulebookForm.INDENT;
        setting.putBelow(i, 1, further);
        column = further + setting.width(i);
      } else {
        setting.putBehind(i, gap);
        column += gap + setting.width(i);
      }
      if (is(i, "show")) {
        shown = true;
        int end = column - "or".length();
        under = fits(i, end, breaks) ? end : under;
      }
    }
  }

  /** True when all alternatives behind a place fit with their "or" in a column. */
  private boolean fits(int at, int column, boolean[] breaks) {
    for (int i = at + 1; i < to; i++) {
      if (breaks[i] && is(i, "or") && column + length(i, breaks) > Setting.LINE) {
        return false;
      }
    }
    return true;
  }

  /** Where a line may begin. */
  private boolean[] breaks() {
    boolean[] breaks = new boolean[to];
    boolean whole = false;
    for (int i = from; i < to; i++) {
      Lexeme lexeme = lexemes.get(i);
      breaks[i] = i > from && !whole && mayBegin(i);
      whole |= UNBROKEN.stream().anyMatch(lexeme::opens);
      whole &= UNBROKEN.stream().noneMatch(lexeme::closes);
    }
    return breaks;
  }

  private boolean mayBegin(int at) {
    Lexeme lexeme = lexemes.get(at);
    Lexeme before = lexemes.get(at - 1);
    boolean listed =
        lexeme.opens(Part.NAME) && before.closes(Part.NAME)
            || lexeme.opens(Part.LOOK) && before.closes(Part.LOOK)
            || lexeme.opens(Part.LIT) && before.closes(Part.LIT)
            || before.kind() == Lexeme.Kind.COMMA;
    boolean named =
        isFact(at)
            || lexeme.opens(Part.AHEAD)
            || lexeme.opens(Part.SECOND)
            || lexeme.opens(Part.PROVISO)
            || lexeme.opens(Part.EDITION)
            || lexeme.opens(Part.EFFECTIVE);
    boolean mark = lexeme.kind() != Lexeme.Kind.WORD;
    return !mark && (listed || named || BEGIN_LINES.contains(lexeme.text()));
  }

  /** The length of what cannot be broken from a place on. */
  private int length(int at, boolean[] breaks) {
    int length = setting.width(at);
    for (int i = at + 1; i < to && !breaks[i] && !setting.isRemark(i); i++) {
      length += gap(i) + setting.width(i);
    }
    return length;
  }

  /** The blanks before a piece behind another one. */
  private int gap(int at) {
    Lexeme lexeme = lexemes.get(at);
    Lexeme before = lexemes.get(at - 1);
    boolean close =
        lexeme.kind() == Lexeme.Kind.COMMA
            || lexeme.kind() == Lexeme.Kind.RIGHT
            || before.kind() == Lexeme.Kind.LEFT;
    if (close) {
      return 0;
    }
    boolean apart =
        isFact(at)
            && before.kind() != Lexeme.Kind.OPEN
            && before.kind() != Lexeme.Kind.COMMA
            && !(isFact(at - 1) && isAlone(at));
    return apart ? 2 : 1;
  }

  /** True for a fact of one word. */
  private boolean isAlone(int at) {
    Lexeme next = lexemes.get(at + 1);
    return isFact(at + 1)
        || next.kind() == Lexeme.Kind.CLOSE
        || next.kind() == Lexeme.Kind.COMMA
        || next.kind() == Lexeme.Kind.COMMENT;
  }

  private boolean is(int at, String word) {
    return lexemes.get(at).text().equals(word);
  }
}
