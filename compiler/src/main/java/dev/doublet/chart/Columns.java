package dev.doublet.chart;

import java.util.ArrayList;
import java.util.List;

/** Rows of text in columns as wide as they need to be; columns without any text are left out. */
final class Columns {
  private static final String BETWEEN = "  ";

  private final List<String> heads;
  private final List<List<String>> rows = new ArrayList<>();

  Columns(List<String> heads) {
    this.heads = List.copyOf(heads);
  }

  /** Adds a row of as many cells as there are heads. */
  void add(List<String> row) {
    rows.add(List.copyOf(row));
  }

  /** Heads and rows, each line after an indent, without blanks at its end. */
  String draw(String indent) {
    int[] widths = new int[heads.size()];
    for (List<String> row : rows) {
      for (int column = 0; column < widths.length; column++) {
        widths[column] = Math.max(widths[column], row.get(column).length());
      }
    }
    StringBuilder out = new StringBuilder(line(heads, widths, indent));
    rows.forEach(row -> out.append(line(row, widths, indent)));
    return out.toString();
  }

  private String line(List<String> cells, int[] widths, String indent) {
    StringBuilder line = new StringBuilder(indent);
    for (int column = 0; column < widths.length; column++) {
      if (widths[column] > 0) {
        int width = Math.max(widths[column], heads.get(column).length());
        String cell = cells.get(column);
        line.append(cell).append(" ".repeat(width - cell.length())).append(BETWEEN);
      }
    }
    return line.toString().stripTrailing() + "\n";
  }
}
