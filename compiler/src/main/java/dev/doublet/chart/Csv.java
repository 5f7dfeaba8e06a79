package dev.doublet.chart;

import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Rows of comma-separated values (RFC 4180), with line feeds alone, as git likes them. Names come
 * from anybody, and a spreadsheet takes a cell for a formula that begins like one: an apostrophe
 * makes a text of it.
 */
final class Csv {
  private static final Pattern FORMULA = Pattern.compile("(^|[;\t|])(\\s*[=+\\-@＝＋－＠])");
  private static final Pattern NUMBER = Pattern.compile("-?[0-9]+(\\.[0-9]+)?");

  private Csv() {}

  /** One row with its line end. */
  static String row(List<String> cells) {
    return cells.stream().map(Csv::cell).collect(Collectors.joining(",")) + "\n";
  }

  private static String cell(String name) {
    String text = inert(name);
    boolean plain = text.chars().noneMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
    return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
  }

  /** A sheet may be read with other separators than commas, and each begins a cell. */
  private static String inert(String text) {
    return NUMBER.matcher(text).matches() ? text : FORMULA.matcher(text).replaceAll("$1'$2");
  }
}
