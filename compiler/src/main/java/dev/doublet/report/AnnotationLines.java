package dev.doublet.report;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.source.Position;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.List;
import java.util.function.UnaryOperator;

/**
 * Findings as workflow commands, which forges show beside the lines of a review: {@code ::error
 * file=…,line=…::message}, as GitHub's documentation of workflow commands has them; Gitea's and
 * Forgejo's runners read the same lines. A forge keeps ten of each severity in a step, so the last
 * one says how many more there are.
 */
public final class AnnotationLines {
  private static final int MOST = 10;

  private AnnotationLines() {}

  /**
   * One line a finding, errors first.
   *
   * @param place the path of a file from the top of its checkout, by its name
   */
  public static String of(Findings findings, UnaryOperator<String> place) {
    StringBuilder lines = new StringBuilder();
    for (Severity severity : Severity.values()) {
      List<Diagnostic> of =
          findings.all().stream()
              .map(Findings.Finding::said)
              .filter(d -> d.severity() == severity)
              .toList();
      int shown = of.size() > MOST ? MOST - 1 : of.size();
      of.subList(0, shown).forEach(d -> lines.append(line(d, place)));
      if (shown < of.size()) {
        lines.append(
            Words.say(
                "::%s title=doublet::%,d more of this severity\n",
                command(severity), of.size() - shown));
      }
    }
    return lines.toString();
  }

  private static String line(Diagnostic said, UnaryOperator<String> place) {
    Span span = said.primary().span();
    SourceFile file = span.file();
    Position from = span.from();
    Position to = file.position(span.end());
    // A forge takes columns only of what ends on the same line.
    String columns =
        from.line() == to.line()
            ? Words.say(",col=%d,endColumn=%d", from.column(), to.column())
            : "";
    String help = said.help().isEmpty() ? "" : "\nDo: " + said.help();
    return Words.say(
        "::%s file=%s,line=%d,endLine=%d%s,title=%s::%s\n",
        command(said.severity()),
        property(place.apply(file.name())),
        from.line(),
        to.line(),
        columns,
        property(said.name()),
        data(said.message() + help));
  }

  private static String command(Severity severity) {
    return severity == Severity.NOTE ? "notice" : severity.word();
  }

  private static String data(String text) {
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A");
  }

  private static String property(String text) {
    return data(text).replace(":", "%3A").replace(",", "%2C");
  }
}
