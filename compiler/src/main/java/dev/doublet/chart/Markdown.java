package dev.doublet.chart;

import java.util.List;
import java.util.stream.Collectors;

/** Tables in Markdown. */
final class Markdown {
  private Markdown() {}

  /** The row of heads and the rule below it. */
  static String heads(List<String> heads) {
    return row(heads) + row(heads.stream().map(h -> "---").toList());
  }

  /** One row with its line end. */
  static String row(List<String> cells) {
    return cells.stream()
            .map(c -> c.replace("|", "\\|").replace("\n", " "))
            .collect(Collectors.joining(" | ", "| ", " |"))
            .replaceAll(" {2,}\\|", " |")
        + "\n";
  }
}
