package dev.doublet.page;

import dev.doublet.chart.ThrottleSheet;
import dev.doublet.chart.ThrottleSheet.Code;
import dev.doublet.chart.ThrottleSheetText;
import java.util.List;
import java.util.Locale;

/**
 * A throttle sheet as one page that needs nothing else. It says no size of paper, so that A4 and
 * Letter both print it, in columns.
 */
public final class ThrottleSheetPage {
  static final String CSS =
      """
      :root{color-scheme:light dark;--ground:#fff;--ink:#1f2328;--line:#8c959f;--soft:#57606a}
      @media(prefers-color-scheme:dark){:root{--ground:#16181c;--ink:#e6e8eb;--line:#6e7681;--soft:#a3abb5}}
      body{margin:0 auto;max-width:70rem;padding:1rem;font:16px/1.35 system-ui,sans-serif;background:var(--ground);color:var(--ink)}
      h1{font-size:1.4rem;margin:.2rem 0}h2{font-size:1rem;margin:.6rem 0 .2rem;break-after:avoid}
      p{margin:.2rem 0}.soft{color:var(--soft)}
      .columns{columns:3 18rem;column-gap:1.5rem}.code{break-inside:avoid}
      table{border-collapse:collapse;width:100%}
      td,th{border-bottom:1px solid var(--line);padding:.1rem .3rem;text-align:left;vertical-align:top;overflow-wrap:anywhere}
      tr{break-inside:avoid}
      @media print{:root{--ground:#fff;--ink:#000;--line:#888;--soft:#333}body{max-width:none;padding:0;font-size:9pt}.columns{columns:3;column-gap:6mm}.signals{columns:2}}
      @page{margin:12mm}
      """;

  private ThrottleSheetPage() {}

  /** The page. */
  public static String html(ThrottleSheet sheet) {
    StringBuilder page = new StringBuilder();
    begin(page, "Throttle sheet", sheet.title(), CSS);
    page.append("<p class=\"soft\">By ");
    page.append(Xml.text(sheet.book()));
    page.append(". For model railways only; not for full-size railways.</p>\n");
    if (!sheet.notes().isEmpty()) {
      page.append("<p>").append(Xml.text(String.join(" ", sheet.notes()))).append("</p>\n");
    }
    page.append("<div class=\"columns\">\n");
    sheet.codes().forEach(code -> code(page, code));
    page.append("</div>\n<h2>Signals</h2>\n<div class=\"columns signals\">\n");
    List<List<String>> lines =
        sheet.lines().stream().map(line -> ThrottleSheetText.cells(sheet, line)).toList();
    table(page, ThrottleSheetText.heads(sheet), lines);
    return page.append("</div>\n</main>\n</body>\n</html>\n").toString();
  }

  /** A page that asks nothing of a network, up to its heading. */
  static void begin(StringBuilder page, String what, String title, String css) {
    page.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    page.append("<meta name=\"viewport\" content=\"width=device-width\">\n");
    page.append("<meta name=\"generator\" content=\"Doublet ")
        .append(what.toLowerCase(Locale.ROOT));
    page.append("\">\n");
    page.append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';");
    page.append(" style-src 'unsafe-inline'\">\n<title>").append(what).append(" of ");
    page.append(Xml.text(title)).append("</title>\n<style>\n").append(css);
    page.append("</style>\n</head>\n<body>\n<main>\n<h1>").append(what).append(" of ");
    page.append(Xml.text(title)).append("</h1>\n");
  }

  private static void code(StringBuilder page, Code code) {
    page.append("<section class=\"code\">\n<h2>Code ").append(code.letter()).append(": ");
    page.append(Xml.text(code.how())).append("</h2>\n");
    table(page, ThrottleSheetText.heads(code), ThrottleSheetText.rows(code));
    code.remarks()
        .forEach(r -> page.append("<p class=\"soft\">").append(Xml.text(r)).append("</p>\n"));
    page.append("</section>\n");
  }

  /** A table with one row of heads. */
  static void table(StringBuilder page, List<String> heads, List<List<String>> rows) {
    page.append("<table>\n<thead><tr>");
    heads.forEach(h -> page.append("<th scope=\"col\">").append(Xml.text(h)).append("</th>"));
    page.append("</tr></thead>\n<tbody>\n");
    for (List<String> row : rows) {
      page.append("<tr>");
      row.forEach(cell -> page.append("<td>").append(Xml.text(cell)).append("</td>"));
      page.append("</tr>\n");
    }
    page.append("</tbody>\n</table>\n");
  }
}
