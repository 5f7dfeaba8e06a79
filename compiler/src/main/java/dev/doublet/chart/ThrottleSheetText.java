package dev.doublet.chart;

import dev.doublet.chart.ThrottleSheet.Code;
import dev.doublet.chart.ThrottleSheet.Line;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** {@link ThrottleSheet} as text, as Markdown and as comma-separated values. */
public final class ThrottleSheetText {
  /** What A4 and Letter hold beside one another at 10 points, with margins of 12 mm. */
  private static final int PAPER = 87;

  private static final int LEAST_BLOCK = 26;
  private static final String BETWEEN = "   ";

  private ThrottleSheetText() {}

  /** As text. */
  public static String text(ThrottleSheet sheet) {
    StringBuilder out = new StringBuilder();
    out.append(sheet.title()).append(" (").append(sheet.book()).append(")\n");
    sheet.notes().forEach(note -> out.append(note).append('\n'));
    shelves(sheet.codes().stream().map(ThrottleSheetText::block).toList())
        .forEach(shelf -> out.append('\n').append(beside(shelf)));
    Columns columns = new Columns(heads(sheet));
    sheet.lines().forEach(line -> columns.add(cells(sheet, line)));
    return out.append('\n').append(columns.draw("")).toString();
  }

  /** A code as lines no wider than its table, or than its remarks need. */
  private static List<String> block(Code code) {
    Columns columns = new Columns(heads(code));
    rows(code).forEach(columns::add);
    List<String> lines = new ArrayList<>();
    lines.add(code.letter() + ": " + code.how());
    lines.addAll(columns.draw("  ").lines().toList());
    int width = Math.max(width(lines), LEAST_BLOCK);
    code.remarks().forEach(remark -> lines.addAll(wrapped(remark, width)));
    return lines;
  }

  private static int width(List<String> block) {
    return block.stream().mapToInt(String::length).max().orElse(0);
  }

  private static List<String> wrapped(String remark, int width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder(" ");
    for (String word : remark.split(" ")) {
      if (line.length() + 1 + word.length() > width && !line.toString().isBlank()) {
        lines.add(line.toString());
        line = new StringBuilder("   ");
      }
      line.append(' ').append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  /** Blocks in their order, as many beside one another as paper is wide. */
  private static List<List<List<String>>> shelves(List<List<String>> blocks) {
    List<List<List<String>>> shelves = new ArrayList<>();
    int used = PAPER;
    for (List<String> block : blocks) {
      used += BETWEEN.length() + width(block);
      if (used > PAPER) {
        shelves.add(new ArrayList<>());
        used = width(block);
      }
      shelves.get(shelves.size() - 1).add(block);
    }
    return shelves;
  }

  private static String beside(List<List<String>> shelf) {
    int lines = shelf.stream().mapToInt(List::size).max().orElse(0);
    StringBuilder out = new StringBuilder();
    for (int i = 0; i < lines; i++) {
      StringBuilder line = new StringBuilder();
      for (List<String> block : shelf) {
        String cell = i < block.size() ? block.get(i) : "";
        line.append(cell).append(" ".repeat(width(block) - cell.length())).append(BETWEEN);
      }
      out.append(line.toString().stripTrailing()).append('\n');
    }
    return out.toString();
  }

  /** As a page in Markdown. */
  public static String markdown(ThrottleSheet sheet) {
    StringBuilder out = new StringBuilder();
    out.append("# Throttle sheet of ").append(Markdown.text(sheet.title())).append("\n\n");
    out.append("By ").append(Markdown.text(sheet.book())).append(".\n");
    sheet.notes().forEach(note -> out.append(note).append('\n'));
    for (Code code : sheet.codes()) {
      out.append("\n## Code ").append(code.letter()).append(": ").append(code.how());
      out.append("\n\n").append(Markdown.heads(heads(code)));
      rows(code).forEach(row -> out.append(Markdown.row(row)));
      code.remarks().forEach(r -> out.append('\n').append(Markdown.text(r)).append('\n'));
    }
    out.append("\n## Signals\n\n").append(Markdown.heads(heads(sheet)));
    sheet.lines().forEach(line -> out.append(Markdown.row(cells(sheet, line))));
    return out.toString();
  }

  /** As comma-separated values: one row a signal, with its whole code in the last cell. */
  public static String csv(ThrottleSheet sheet) {
    StringBuilder out =
        new StringBuilder(
            Csv.row(
                List.of(
                    "controller",
                    "signal",
                    "code",
                    "bus",
                    "listens at",
                    "inside",
                    "calls up",
                    "note")));
    for (Line line : sheet.lines()) {
      Code code =
          sheet.codes().stream()
              .filter(c -> c.letter().equals(line.code()))
              .findFirst()
              .orElseThrow();
      out.append(
          Csv.row(
              List.of(
                  line.controller(),
                  line.name(),
                  line.code(),
                  line.bus(),
                  line.at(),
                  line.inside(),
                  code.rows().stream()
                      .map(r -> String.join(" ", r.sent()) + " = " + r.shows())
                      .collect(Collectors.joining("; ")),
                  line.note())));
    }
    return out.toString();
  }

  /** The heads over a code's rows. */
  public static List<String> heads(Code code) {
    List<String> heads = new ArrayList<>(code.heads());
    heads.add("shows");
    return heads;
  }

  /** The rows of a code, as many cells as there are heads. */
  public static List<List<String>> rows(Code code) {
    List<List<String>> rows = new ArrayList<>();
    for (ThrottleSheet.Row row : code.rows()) {
      List<String> cells = new ArrayList<>(row.sent());
      cells.add(row.shows());
      rows.add(cells);
    }
    return rows;
  }

  /** The heads over the signals. */
  public static List<String> heads(ThrottleSheet sheet) {
    List<String> heads = new ArrayList<>(List.of("signal", "code"));
    if (sheet.buses()) {
      heads.add("bus");
    }
    heads.addAll(List.of("listens at", "inside"));
    if (isNoted(sheet)) {
      heads.add("note");
    }
    return heads;
  }

  /** One signal's line, as many cells as there are heads. */
  public static List<String> cells(ThrottleSheet sheet, Line line) {
    List<String> cells = new ArrayList<>(List.of(line.name(), line.code()));
    if (sheet.buses()) {
      cells.add(line.bus());
    }
    cells.addAll(List.of(line.at(), line.inside()));
    if (isNoted(sheet)) {
      cells.add(line.note());
    }
    return cells;
  }

  private static boolean isNoted(ThrottleSheet sheet) {
    return sheet.lines().stream().anyMatch(l -> !l.note().isEmpty());
  }
}
