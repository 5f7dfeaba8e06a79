package dev.doublet.format;

import dev.doublet.syntax.Lexeme;
import dev.doublet.syntax.Part;
import java.util.ArrayList;
import java.util.List;

/**
 * Puts what is alike in rows that follow each other into columns: speeds, colours, rhythms, lamps,
 * figures, forms, plates, patterns, and declarations that lie on one line. A column reaches over
 * the rows that have it one below the other.
 */
final class Alignment {
  /** More blanks than this tear a line apart. */
  private static final int WIDEST_GAP = 32;

  private final List<Lexeme> lexemes;
  private final Setting setting;
  private final List<Row> rows;

  Alignment(List<Lexeme> lexemes, Setting setting, List<Row> rows) {
    this.lexemes = lexemes;
    this.setting = setting;
    this.rows = rows;
  }

  /**
   * A cell of a row.
   *
   * @param start its first piece
   * @param sort what it is; cells of one sort stand below each other
   */
  private record Cell(int start, String sort) {}

  /** A row in cells. */
  private record Line(Row row, List<Cell> cells) {}

  void align() {
    List<Line> run = new ArrayList<>();
    Row last = null;
    for (Row row : rows) {
      Line line = line(row);
      boolean goesOn =
          !run.isEmpty() && isBelow(row, last) && sort(line, 0).equals(sort(run.get(0), 0));
      if (!goesOn) {
        alignIfFitting(run);
        run.clear();
      }
      if (line.cells.size() > 1 || goesOn) {
        run.add(line);
      }
      last = row;
    }
    alignIfFitting(run);
  }

  /** True right below another row, with no blank line and no comment of its own between. */
  private boolean isBelow(Row row, Row last) {
    boolean next = row.from() == last.to();
    boolean remark = row.from() == last.to() + 1 && setting.isTrailing(last.to());
    return (next || remark) && setting.lineEnds(row.from()) == 1;
  }

  private void alignIfFitting(List<Line> run) {
    if (run.size() < 2) {
      return;
    }
    int[] before =
        run.stream()
            .flatMap(l -> l.cells.stream())
            .mapToInt(c -> setting.blanks(c.start))
            .toArray();
    int[] ends = run.stream().mapToInt(l -> widest(l.row)).toArray();
    align(run, 0);
    boolean fits = true;
    for (int i = 0; i < run.size(); i++) {
      Line line = run.get(i);
      int end = widest(line.row);
      fits &= end <= Setting.LINE || end == ends[i];
      fits &= line.cells.stream().allMatch(c -> setting.blanks(c.start) <= WIDEST_GAP);
    }
    if (!fits) {
      int at = 0;
      for (Line line : run) {
        for (Cell cell : line.cells) {
          shift(line.row, cell.start, before[at++] - setting.blanks(cell.start));
        }
      }
    }
  }

  /** Aligns the cells behind one column, and so on to the right. */
  private void align(List<Line> lines, int column) {
    for (int from = 0; from < lines.size(); ) {
      String sort = sort(lines.get(from), column + 1);
      int to = from + 1;
      while (to < lines.size() && sort(lines.get(to), column + 1).equals(sort)) {
        to++;
      }
      List<Line> group = lines.subList(from, to);
      if (!sort.isEmpty() && group.size() > 1) {
        int at = group.stream().mapToInt(l -> setting.column(start(l, column + 1))).max().orElse(0);
        for (Line line : group) {
          int start = start(line, column + 1);
          shift(line.row, start, at - setting.column(start));
        }
        align(group, column + 1);
      }
      from = to;
    }
  }

  /** Alternatives that stand under a "show" go with it. */
  private void shift(Row row, int start, int by) {
    int under = setting.column(start) + "show".length() - "or".length();
    if (lexemes.get(start).text().equals("show")) {
      for (int i = start + 1; i < row.to(); i++) {
        boolean alternative = setting.lineEnds(i) > 0 && lexemes.get(i).text().equals("or");
        if (alternative && setting.blanks(i) == under) {
          setting.shift(i, by);
        }
      }
    }
    setting.shift(start, by);
  }

  /** Where the longest line of a row ends. */
  private int widest(Row row) {
    int widest = 0;
    int column = 0;
    for (int i = row.from(); i < row.to(); i++) {
      column =
          i == row.from() || setting.lineEnds(i) > 0
              ? setting.blanks(i)
              : column + setting.blanks(i);
      column += setting.width(i);
      widest = setting.isRemark(i) ? widest : Math.max(widest, column);
    }
    return widest;
  }

  private static int start(Line line, int column) {
    return line.cells.get(column).start;
  }

  private static String sort(Line line, int column) {
    return column < line.cells.size() ? line.cells.get(column).sort : "";
  }

  private Line line(Row row) {
    List<Cell> cells = new ArrayList<>();
    Lexeme first = lexemes.get(row.from());
    if (first.opens(Part.SPEED) || first.opens(Part.COLOUR) || first.opens(Part.RHYTHM)) {
      cells.add(new Cell(row.from(), "name"));
      if (row.to() > row.from() + 1 && lexemes.get(row.from() + 1).kind() == Lexeme.Kind.WORD) {
        cells.add(new Cell(row.from() + 1, "value"));
      }
    } else if (first.opens(Part.LAMPS)) {
      cut(row, cells, "lamp", "shows");
    } else if (first.opens(Part.FIGURE)) {
      cut(row, cells, "figure", "lights");
    } else if (first.opens(Part.SHOWS)) {
      cut(row, cells, "on", "show");
    } else if (first.opens(Part.PLATES)) {
      cut(row, cells, "plate", "without", "turns");
    } else if (first.opens(Part.FORM) || first.opens(Part.HEAD) || first.opens(Part.ASPECT)) {
      block(row, cells, first.text());
    }
    boolean onOneLine =
        cells.stream().allMatch(c -> c.start == row.from() || isOnFirstLine(row, c.start));
    return new Line(row, onOneLine ? cells : List.of());
  }

  private void cut(Row row, List<Cell> cells, String sort, String... words) {
    cells.add(new Cell(row.from(), sort));
    for (int i = row.from() + 1; i < row.to(); i++) {
      if (List.of(words).contains(lexemes.get(i).text())) {
        cells.add(new Cell(i, "rest"));
        return;
      }
    }
  }

  /** A declaration on one line: its head, its brace with the first fact, and the other facts. */
  private void block(Row row, List<Cell> cells, String sort) {
    int open = row.from();
    while (open < row.to() && lexemes.get(open).kind() != Lexeme.Kind.OPEN) {
      open++;
    }
    if (open + 1 >= row.to()) {
      return;
    }
    cells.add(new Cell(row.from(), sort));
    if (sort.equals("aspect")) {
      cells.add(new Cell(open, lexemes.get(open + 1).text()));
      for (int i = open + 2; i < row.to(); i++) {
        if (row.isFact(i)) {
          cells.add(new Cell(i, lexemes.get(i).text()));
        }
      }
    } else {
      cells.add(new Cell(open, "block"));
    }
  }

  private boolean isOnFirstLine(Row row, int at) {
    for (int i = row.from() + 1; i <= at; i++) {
      if (setting.lineEnds(i) > 0) {
        return false;
      }
    }
    return true;
  }
}
