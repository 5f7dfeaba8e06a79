package dev.doublet.page;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.source.Position;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;

/**
 * The texts in which something was found, on a page: every line by its number, those with findings
 * marked and their words below. What is marked can be linked to.
 */
public final class FindingsPage {
  private static final String CSS =
      """
      :root{color-scheme:light dark;--ground:#fff;--ink:#1f2328;--soft:#57606a;--mark:#fff3c4;--error:#b91c1c;--warning:#8a4600}
      @media(prefers-color-scheme:dark){:root{--ground:#16181c;--ink:#e6e8eb;--soft:#a3abb5;--mark:#3d3312;--error:#f87171;--warning:#f0b429}}
      body{margin:0 auto;max-width:80rem;padding:1rem;font:16px/1.45 system-ui,sans-serif;background:var(--ground);color:var(--ink)}
      h1{font-size:1.5rem;margin:.3rem 0}h2{font-size:1.15rem;margin:1.2rem 0 .4rem}
      ol{margin:0;padding-left:4.5em;font:14px/1.5 ui-monospace,monospace}
      li{white-space:pre-wrap;overflow-wrap:anywhere;scroll-margin-top:30vh;padding-left:.5em}li::marker{color:var(--soft)}
      .found{background:var(--mark)}:target{outline:3px solid currentColor}
      .error{color:var(--error)}.warning{color:var(--warning)}
      p{margin:.2rem 0 .4rem;font:15px/1.4 system-ui,sans-serif;white-space:normal}
      """;

  private final List<Diagnostic> found;
  private final List<String> files;

  private FindingsPage(List<Diagnostic> found) {
    this.found = found.stream().sorted(Diagnostic.ORDER).distinct().toList();
    this.files =
        this.found.stream().map(d -> d.primary().span().file().name()).distinct().sorted().toList();
  }

  /** The page of some findings. */
  public static FindingsPage of(List<Diagnostic> found) {
    return new FindingsPage(found);
  }

  /** A finding in a line: where it stands on the page, severity, file:line:column, message. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    for (Diagnostic one : found) {
      Position from = one.primary().span().from();
      String file = one.primary().span().file().name();
      String place = file + ":" + from.line() + ":" + from.column();
      String words = one.severity().word() + " " + place + ": " + one.message();
      lines.add(place(one) + " " + Visible.line(words));
    }
    return lines;
  }

  /** Where a finding stands on the page. */
  private String place(Diagnostic said) {
    int file = files.indexOf(said.primary().span().file().name());
    return "f" + file + "l" + said.primary().span().from().line();
  }

  /** The page. */
  public String html() {
    StringBuilder page = new StringBuilder("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n");
    page.append(
        "<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n");
    page.append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';");
    page.append(" style-src 'unsafe-inline'\">\n<title>What was found</title>\n<style>\n");
    page.append(CSS).append("</style>\n</head>\n<body>\n<main>\n<h1>What was found</h1>\n");
    page.append(found.isEmpty() ? "<p>Nothing.</p>\n" : "");
    for (String name : files) {
      List<Diagnostic> here =
          found.stream().filter(d -> d.primary().span().file().name().equals(name)).toList();
      page.append("<h2>").append(Xml.text(name)).append("</h2>\n<ol>\n");
      page.append(lines(here)).append("</ol>\n");
    }
    return page.append("</main>\n</body>\n</html>\n").toString();
  }

  private String lines(List<Diagnostic> here) {
    SourceFile file = here.get(0).primary().span().file();
    TreeMap<Integer, List<Diagnostic>> byLine = new TreeMap<>();
    for (Diagnostic one : here) {
      byLine.computeIfAbsent(one.primary().span().from().line(), n -> new ArrayList<>()).add(one);
    }
    int lines = Math.max((int) file.text().lines().count(), byLine.lastKey());
    StringBuilder text = new StringBuilder();
    for (int line = 1; line <= lines; line++) {
      List<Diagnostic> said = byLine.getOrDefault(line, List.of());
      String mark =
          said.isEmpty()
              ? ""
              : " class=\"found\" id=\"" + place(said.get(0)) + "\" tabindex=\"-1\"";
      text.append("<li").append(mark).append('>').append(Xml.text(file.line(line)));
      for (Diagnostic one : said) {
        String severity = one.severity().word();
        text.append("<p class=\"").append(severity).append("\">").append(severity).append(": ");
        text.append(Xml.text(one.message())).append("</p>");
      }
      text.append("</li>\n");
    }
    return text.toString();
  }
}
