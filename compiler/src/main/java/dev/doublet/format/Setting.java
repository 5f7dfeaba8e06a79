package dev.doublet.format;

import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.List;

/** The pieces of a text, and how many line ends and blanks are to stand before each. */
final class Setting {
  /** How long a line may be, in code points. */
  static final int LINE = 100;

  /** Blanks before a comment that stands behind something. */
  private static final int BEFORE_REMARK = 3;

  private final SourceFile file;
  private final List<Span> pieces;
  private final boolean[] remarks;
  private final int[] lineEnds;
  private final int[] blanks;
  private final int[] widths;

  /** Of a piece of several lines the length of its last; -1 for others. */
  private final int[] tails;

  private boolean endStays;

  /**
   * As the author set it.
   *
   * @param pieces in order
   * @param remarks which of them are comments
   */
  Setting(SourceFile file, List<Span> pieces, boolean[] remarks) {
    this.file = file;
    this.pieces = pieces;
    this.remarks = remarks;
    this.lineEnds = new int[pieces.size()];
    this.blanks = new int[pieces.size()];
    this.widths = new int[pieces.size()];
    this.tails = new int[pieces.size()];
    int before = 0;
    for (int i = 0; i < pieces.size(); i++) {
      Span piece = pieces.get(i);
      measureGap(i, before, piece.start());
      before = piece.end();
      widths[i] = file.text().codePointCount(piece.start(), piece.end());
      tails[i] = tail(piece);
    }
  }

  private int tail(Span piece) {
    String text = file.text();
    for (int i = piece.end() - 1; i >= piece.start(); i--) {
      if (text.charAt(i) == '\n' || text.charAt(i) == '\r') {
        return text.codePointCount(i + 1, piece.end());
      }
    }
    return -1;
  }

  private void measureGap(int at, int from, int to) {
    String text = file.text();
    for (int i = from; i < to; i++) {
      char c = text.charAt(i);
      boolean ends = c == '\n' || c == '\r' && !(i + 1 < to && text.charAt(i + 1) == '\n');
      if (ends) {
        lineEnds[at]++;
        blanks[at] = 0;
      } else if (c != '\r') {
        blanks[at]++;
      }
    }
  }

  /** Leaves the last piece the end of the text, where that is part of it. */
  void leaveEnd() {
    endStays = true;
  }

  int size() {
    return widths.length;
  }

  int width(int at) {
    return widths[at];
  }

  boolean isRemark(int at) {
    return remarks[at];
  }

  /** True for a comment behind something on its line. */
  boolean isTrailing(int at) {
    return remarks[at] && at > 0 && lineEnds[at] == 0;
  }

  /** How many lines end before a piece. */
  int lineEnds(int at) {
    return lineEnds[at];
  }

  /** How many blanks stand before a piece, behind the last line end. */
  int blanks(int at) {
    return blanks[at];
  }

  /** Puts a piece behind the one before it. */
  void putBehind(int at, int blanksBefore) {
    lineEnds[at] = 0;
    blanks[at] = remarks[at] ? BEFORE_REMARK : blanksBefore;
  }

  /** Puts a piece on a line of its own, but not a comment that stands behind something. */
  void putBelow(int at, int ends, int indent) {
    if (isTrailing(at)) {
      putBehind(at, BEFORE_REMARK);
    } else {
      lineEnds[at] = at == 0 ? 0 : ends;
      blanks[at] = indent;
    }
  }

  /** Moves a piece and what stands behind it on its line. */
  void shift(int at, int by) {
    blanks[at] += by;
  }

  /** In which column the line of a piece ends that begins in some column. */
  int end(int at, int column) {
    return tails[at] < 0 ? column + widths[at] : tails[at];
  }

  /** In which column of its line a piece begins, from 0. */
  int column(int at) {
    int column = blanks[at];
    for (int i = at; i > 0 && lineEnds[i] == 0; i--) {
      if (tails[i - 1] >= 0) {
        return column + tails[i - 1];
      }
      column += widths[i - 1] + blanks[i - 1];
    }
    return column;
  }

  /** Puts the comments of lines that follow each other below each other. */
  void alignRemarks() {
    List<Integer> run = new ArrayList<>();
    boolean goesOn = false;
    for (int i = 0; i < size(); i++) {
      if (i == 0 || lineEnds[i] > 0) {
        // A line without such a comment ends the run, and so does a blank one.
        if (!goesOn || lineEnds[i] > 1) {
          alignRemarks(run);
          run.clear();
        }
        goesOn = false;
      }
      if (isTrailing(i)) {
        run.add(i);
        goesOn = true;
      }
    }
    alignRemarks(run);
  }

  private void alignRemarks(List<Integer> run) {
    if (run.isEmpty()) {
      return;
    }
    int column = run.stream().mapToInt(this::column).max().orElse(0);
    boolean fits = run.stream().allMatch(i -> column(i) == column || column + widths[i] <= LINE);
    if (fits) {
      run.forEach(i -> shift(i, column - column(i)));
    }
  }

  /** What is to be changed. */
  List<Spacing> changes() {
    String end = lineEnd();
    List<Spacing> changes = new ArrayList<>();
    int before = 0;
    for (int i = 0; i <= size(); i++) {
      boolean last = i == size();
      int start = last ? file.text().length() : pieces.get(i).start();
      int ends = last ? (i == 0 || endStays ? 0 : 1) : lineEnds[i];
      int blank = last ? 0 : blanks[i];
      if (!stands(before, start, end, ends, blank)) {
        changes.add(new Spacing(file.span(before, start), end.repeat(ends) + " ".repeat(blank)));
      }
      before = last ? start : pieces.get(i).end();
    }
    return changes;
  }

  /** True when between two places there are just so many line ends and blanks. */
  private boolean stands(int from, int to, String end, int ends, int blank) {
    int at = from + ends * end.length();
    boolean same = at + blank == to;
    for (int i = 0; same && i < ends; i++) {
      same = file.text().startsWith(end, from + i * end.length());
    }
    for (; same && at < to; at++) {
      same = file.text().charAt(at) == ' ';
    }
    return same;
  }

  /** Lines end as the first one does: which way is up to the machine that a text lies on. */
  private String lineEnd() {
    int first = file.text().indexOf('\n');
    return first > 0 && file.text().charAt(first - 1) == '\r' ? "\r\n" : "\n";
  }
}
