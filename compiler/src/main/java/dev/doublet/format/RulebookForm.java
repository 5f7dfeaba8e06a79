package dev.doublet.format;

import dev.doublet.source.SourceFile;
import dev.doublet.syntax.Lexeme;
import dev.doublet.syntax.Part;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * The form of rulebooks: which declarations and facts stand on lines of their own, and how far in.
 */
final class RulebookForm {
  /** How far the facts of a block stand in, and lines that go on from the one above. */
  static final int INDENT = 2;

  /** What an aspect is and allows may stand beside its name; how it looks stands below. */
  private static final Set<String> BESIDE_NAMES = Set.of("rule", "number", "indicates", "allows");

  private final List<Lexeme> lexemes;
  private final Setting setting;
  private final List<Row> rows = new ArrayList<>();

  private RulebookForm(SourceFile file, List<Lexeme> lexemes) {
    this.lexemes = lexemes;
    boolean[] remarks = new boolean[lexemes.size()];
    for (int i = 0; i < remarks.length; i++) {
      remarks[i] = lexemes.get(i).kind() == Lexeme.Kind.COMMENT;
    }
    this.setting = new Setting(file, lexemes.stream().map(Lexeme::span).toList(), remarks);
  }

  /** What is to be changed in a text. */
  static List<Spacing> changes(SourceFile file, List<Lexeme> lexemes) {
    RulebookForm form = new RulebookForm(file, lexemes);
    form.set();
    new Alignment(lexemes, form.setting, form.rows).align();
    form.setting.alignRemarks();
    return form.setting.changes();
  }

  private void set() {
    for (int at = 0; at < lexemes.size(); ) {
      if (setting.isRemark(at)) {
        setting.putBelow(at, linesBefore(at), 0);
        at++;
      } else {
        int end = end(at);
        declaration(at, end);
        at = end;
      }
    }
  }

  private int end(int start) {
    int at = start;
    while (!lexemes.get(at).closes(Part.DECLARATION)) {
      at++;
    }
    return at + 1;
  }

  private void declaration(int from, int to) {
    int open = find(Lexeme.Kind.OPEN, from, to);
    if (open < 0) {
      row(from, to, linesBefore(from), 0);
      return;
    }
    int close = find(Lexeme.Kind.CLOSE, open, to);
    Row whole = new Row(lexemes, setting, from, to, 0);
    if (close == open + 1 || isOnOneLine(from, to) && whole.fits()) {
      row(from, to, linesBefore(from), 0);
      return;
    }
    int head = headEnd(from, open, close);
    row(from, head, linesBefore(from), 0);
    boolean first = true;
    for (int at = head; at < close; ) {
      int lines = first ? 1 : linesBefore(at);
      first &= setting.isTrailing(at);
      if (setting.isRemark(at)) {
        setting.putBelow(at, lines, INDENT);
        at++;
      } else {
        int end = factEnd(at, close);
        row(at, end, lines, INDENT);
        at = end;
      }
    }
    row(close, to, 1, 0);
  }

  /** Where those facts of an aspect end that its author wrote beside its name, if they fit. */
  private int headEnd(int from, int open, int close) {
    int end = open + 1;
    for (int next = end; next < close && BESIDE_NAMES.contains(text(next)); next = end) {
      int fact = nextFact(next, close);
      while (setting.isRemark(fact - 1)) {
        fact--;
      }
      if (!isOnOneLine(from, fact) || !new Row(lexemes, setting, from, fact, 0).fits()) {
        break;
      }
      end = fact;
    }
    return end;
  }

  private void row(int from, int to, int lines, int indent) {
    Row row = new Row(lexemes, setting, from, to, indent);
    row.set(lines);
    rows.add(row);
  }

  /** At most one blank line is kept. */
  private int linesBefore(int at) {
    return setting.lineEnds(at) > 1 ? 2 : 1;
  }

  private int find(Lexeme.Kind kind, int from, int to) {
    for (int i = from; i < to; i++) {
      if (lexemes.get(i).kind() == kind) {
        return i;
      }
    }
    return -1;
  }

  private String text(int at) {
    return lexemes.get(at).span().text();
  }

  private boolean isOnOneLine(int from, int to) {
    for (int i = from + 1; i < to; i++) {
      if (setting.lineEnds(i) > 0) {
        return false;
      }
    }
    return true;
  }

  /** Where a fact ends, with a comma behind it; a rule and a number share a line. */
  private int factEnd(int from, int close) {
    int next = nextFact(from, close);
    while (isShort(from) && next < close && isShort(next) && !setting.isRemark(next - 1)) {
      next = nextFact(next, close);
    }
    while (setting.isRemark(next - 1)) {
      next--;
    }
    return next;
  }

  private int nextFact(int from, int close) {
    int next = from + 1;
    while (next < close && !lexemes.get(next).opens(Part.FACT)) {
      next++;
    }
    return next;
  }

  private boolean isShort(int at) {
    return lexemes.get(at).opens(Part.REFERENCE) || lexemes.get(at).opens(Part.NUMBER);
  }
}
