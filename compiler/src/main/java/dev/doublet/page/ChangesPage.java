package dev.doublet.page;

import dev.doublet.diff.Changes;
import dev.doublet.diff.ChangesText;
import dev.doublet.diff.Consequence;
import dev.doublet.diff.Event;
import dev.doublet.diff.Sight;
import java.util.List;
import java.util.Optional;

/**
 * Changes as one page that needs nothing else, with what was seen and what is seen side by side.
 */
public final class ChangesPage {
  private static final String CSS =
      """
      :root{color-scheme:light dark;--ground:#fff;--ink:#1f2328;--line:#8c959f;--soft:#57606a}
      @media(prefers-color-scheme:dark){:root{--ground:#16181c;--ink:#e6e8eb;--line:#6e7681;--soft:#a3abb5}}
      body{margin:0 auto;max-width:70rem;padding:1rem;font:16px/1.45 system-ui,sans-serif;background:var(--ground);color:var(--ink)}
      h1{font-size:1.5rem;margin:.3rem 0}h2{font-size:1.2rem;margin:1.4rem 0 .4rem}
      p{margin:.25rem 0}.soft{color:var(--soft)}
      .scroll{overflow-x:auto}
      table{border-collapse:collapse;width:100%}td,th{border:1px solid var(--line);padding:.4rem .6rem;text-align:left;vertical-align:top;overflow-wrap:anywhere}
      th{width:25%}th:first-child{width:50%}
      @media print{:root{--ground:#fff;--ink:#000;--line:#888;--soft:#333}body{max-width:none;padding:0;font-size:10pt}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}
      """;

  private final Gallery gallery = new Gallery();
  private final StringBuilder page = new StringBuilder();

  private ChangesPage() {}

  /** The page. */
  public static String html(Changes changes) {
    return new ChangesPage().write(changes);
  }

  private String write(Changes changes) {
    page.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    page.append("<meta name=\"viewport\" content=\"width=device-width\">\n");
    page.append("<meta name=\"generator\" content=\"Doublet page of changes\">\n");
    page.append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';");
    page.append(
        " style-src 'unsafe-inline'\">\n<title>What changes for signals</title>\n<style>\n");
    page.append(CSS).append(PictureDrawing.css()).append("</style>\n</head>\n<body>\n<main>\n");
    page.append("<h1>What changes for signals</h1>\n<p>");
    page.append(Xml.text(ChangesText.line(changes)))
        .append("</p>\n<p class=\"soft\">A broken ring");
    page.append(" marks a lamp that flashes. For model railways only; not for full-size railways.");
    page.append("</p>\n");
    for (Consequence consequence : Consequence.values()) {
      List<Event> events = changes.of(consequence);
      if (!events.isEmpty()) {
        page.append("<h2>").append(Xml.text(ChangesText.capital(consequence.words())));
        page.append("</h2>\n<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"");
        page.append(Xml.text(consequence.words()));
        page.append("\">\n<table>\n<tr><th scope=\"col\">what</th>");
        page.append("<th scope=\"col\">was</th><th scope=\"col\">is</th></tr>\n");
        events.forEach(this::row);
        page.append("</table>\n</div>\n");
      }
    }
    page.append("<p class=\"soft\">Fingerprint ").append(changes.fingerprint()).append("</p>\n");
    return page.append(gallery.drawn()).append("\n</main>\n</body>\n</html>\n").toString();
  }

  private void row(Event event) {
    page.append("<tr><td>").append(Xml.text(event.sentence()));
    page.append("<p class=\"soft\">").append(event.sort().word()).append(" in ");
    page.append(Xml.text(event.file()));
    page.append(event.how().isEmpty() ? "" : "; " + Xml.text(event.how())).append("</p></td>");
    side(event.sightBefore(), event.before());
    side(event.sightAfter(), event.after());
    page.append("</tr>\n");
  }

  private void side(Optional<Sight> sight, String words) {
    page.append("<td>");
    sight.ifPresent(s -> page.append(gallery.picture(s)));
    if (!words.isEmpty()) {
      page.append("<p>").append(Xml.text(words)).append("</p>");
    }
    page.append("</td>");
  }
}
