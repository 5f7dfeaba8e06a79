package dev.doublet.format;

import dev.doublet.source.SourceFile;
import dev.doublet.syntax.YamlLexeme;
import dev.doublet.syntax.YamlLexeme.Kind;
import java.util.ArrayList;
import java.util.List;

/**
 * The form of layouts: where lines begin, and the blanks within them. Lines stay as the author
 * broke them, and what stands in quotation marks or in a block of lines stays as it is.
 */
final class LayoutForm {
  private static final int INDENT = 2;

  private final List<YamlLexeme> lexemes;
  private final Setting setting;
  private final int[] columns;

  /** The columns in which the blocks around the present line stood, by their steps; -1 for none. */
  private final List<Integer> blocks = new ArrayList<>();

  private LayoutForm(SourceFile file, List<YamlLexeme> lexemes) {
    this.lexemes = lexemes;
    boolean[] remarks = new boolean[lexemes.size()];
    for (int i = 0; i < remarks.length; i++) {
      remarks[i] = lexemes.get(i).kind() == Kind.COMMENT;
    }
    this.setting = new Setting(file, lexemes.stream().map(YamlLexeme::span).toList(), remarks);
    this.columns = new int[lexemes.size()];
    for (int i = 0, end = 0; i < columns.length; i++) {
      boolean begins = i == 0 || setting.lineEnds(i) > 0;
      columns[i] = begins ? setting.blanks(i) : setting.blanks(i) + end;
      end = setting.end(i, columns[i]);
    }
  }

  /**
   * What is to be changed in a text.
   *
   * @param indents false to leave lines where they begin
   */
  static List<Spacing> changes(SourceFile file, List<YamlLexeme> lexemes, boolean indents) {
    LayoutForm form = new LayoutForm(file, lexemes);
    form.set(indents);
    if (!lexemes.isEmpty() && lexemes.get(lexemes.size() - 1).kind() == Kind.BLOCK) {
      form.setting.leaveEnd();
    }
    form.setting.alignRemarks();
    return form.setting.changes();
  }

  private void set(boolean indents) {
    int moved = 0;
    for (int i = 0; i < lexemes.size(); i++) {
      YamlLexeme lexeme = lexemes.get(i);
      boolean begins = i == 0 || setting.lineEnds(i) > 0;
      int column = columns[i];
      if (begins && indents) {
        column = lexeme.inFlow() ? Math.max(0, column + moved) : indent(i);
      }
      if (begins) {
        setting.putBelow(i, Math.min(2, setting.lineEnds(i)), column);
      } else {
        setting.putBehind(i, gap(i));
      }
      if (!lexeme.inFlow() && lexeme.kind() != Kind.COMMENT) {
        if (beginsItem(i)) {
          note(i);
        }
        moved = begins ? column - columns[i] : moved;
      }
    }
  }

  private int indent(int at) {
    YamlLexeme lexeme = lexemes.get(at);
    return lexeme.kind() == Kind.COMMENT ? remarkIndent(at) : lexeme.steps() * INDENT;
  }

  /** True for a key and for a dash. */
  private boolean beginsItem(int at) {
    boolean key = at + 1 < lexemes.size() && lexemes.get(at + 1).kind() == Kind.COLON;
    return key || lexemes.get(at).kind() == Kind.DASH;
  }

  private void note(int at) {
    int steps = lexemes.get(at).steps();
    while (blocks.size() <= steps) {
      blocks.add(-1);
    }
    blocks.subList(steps + 1, blocks.size()).clear();
    blocks.set(steps, columns[at]);
  }

  /**
   * A comment goes with the line below it, unless that stands further out: then with the block
   * above in whose column it is, or else the next one further out.
   */
  private int remarkIndent(int at) {
    int next = at + 1;
    while (next < lexemes.size() && lexemes.get(next).kind() == Kind.COMMENT) {
      next++;
    }
    boolean last = next == lexemes.size();
    int steps = last ? 0 : lexemes.get(next).steps();
    int indent = steps * INDENT;
    int nearest = last ? 0 : columns[next];
    for (int block = steps + 1; block < blocks.size(); block++) {
      int column = blocks.get(block);
      if (columns[at] != nearest && column <= columns[at] && column > nearest) {
        nearest = column;
        indent = block * INDENT;
      }
    }
    return indent;
  }

  /** The blanks before a lexeme behind another on its line. */
  private int gap(int at) {
    Kind before = lexemes.get(at - 1).kind();
    Kind kind = lexemes.get(at).kind();
    if (before == Kind.OTHER || kind == Kind.OTHER) {
      return setting.blanks(at);
    }
    if (before == Kind.COLON || before == Kind.DASH || before == Kind.COMMA) {
      return 1;
    }
    return 0;
  }
}
