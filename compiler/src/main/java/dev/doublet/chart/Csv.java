package dev.doublet.chart;

import java.util.List;
import java.util.stream.Collectors;

/** Rows of comma-separated values (RFC 4180), with line feeds alone, as git likes them. */
final class Csv {
  private Csv() {}

  /** One row with its line end. */
  static String row(List<String> cells) {
    return cells.stream().map(Csv::cell).collect(Collectors.joining(",")) + "\n";
  }

  private static String cell(String text) {
    boolean plain = text.chars().noneMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
    return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
  }
}
