package dev.doublet.chart;

import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Text and tables in Markdown. Names come from anybody: no link, picture, markup or emphasis comes
 * of them.
 */
public final class Markdown {
  /** What means nothing in Markdown, wherever in a line it stands after its first word. */
  private static final Pattern PLAIN =
      Pattern.compile(
          "([\\p{L}\\p{M}\\p{N} ,:;()/'\"+%.×·°µ–—…?=#|-]|(?<= )&(?= )|(?<=[\\p{L}\\p{N}])_(?=[\\p{L}\\p{N}]))*");

  /** Where a reader of Markdown makes a link of bare words. */
  private static final Pattern BARE_LINK = Pattern.compile("://|(?i)www\\.");

  private static final Pattern TICKS = Pattern.compile("`+");

  private Markdown() {}

  /** A text within a line, as it is; as code where Markdown would make something else of it. */
  public static String text(String text) {
    if (PLAIN.matcher(text).matches() && !BARE_LINK.matcher(text).find()) {
      return text;
    }
    return code(text);
  }

  /** A text within a line as code, in which nothing means anything. */
  public static String code(String text) {
    int longest = TICKS.matcher(text).results().mapToInt(t -> t.group().length()).max().orElse(0);
    String fence = "`".repeat(longest + 1);
    boolean apart = longest > 0 || text.startsWith(" ") && text.endsWith(" ");
    return fence + (apart ? " " : "") + text.replace('\n', ' ') + (apart ? " " : "") + fence;
  }

  /** The row of heads and the rule below it. */
  static String heads(List<String> heads) {
    return row(heads) + line(heads.stream().map(h -> "---").toList());
  }

  /** One row with its line end. */
  static String row(List<String> cells) {
    return line(cells.stream().map(cell -> text(cell).replace("|", "\\|")).toList());
  }

  private static String line(List<String> cells) {
    return cells.stream()
            .collect(Collectors.joining(" | ", "| ", " |"))
            .replaceAll(" {2,}\\|", " |")
        + "\n";
  }
}
