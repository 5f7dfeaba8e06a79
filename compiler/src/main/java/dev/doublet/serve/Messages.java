package dev.doublet.serve;

import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.report.TextRendering;
import dev.doublet.source.Position;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.source.Visible;
import java.util.List;
import org.eclipse.lsp4j.Diagnostic;
import org.eclipse.lsp4j.DiagnosticRelatedInformation;
import org.eclipse.lsp4j.DiagnosticSeverity;
import org.eclipse.lsp4j.Location;
import org.eclipse.lsp4j.Range;

/** Places and findings as the protocol writes them: lines and columns from 0, in UTF-16 units. */
final class Messages {
  private static final String SOURCE = "doublet";

  private final Folder folder;

  Messages(Folder folder) {
    this.folder = folder;
  }

  static Range range(Span span) {
    return new Range(position(span.file(), span.start()), position(span.file(), span.end()));
  }

  private static org.eclipse.lsp4j.Position position(SourceFile file, int offset) {
    Position position = file.position(offset, Position.Counting.UTF_16);
    return new org.eclipse.lsp4j.Position(position.line() - 1, position.column() - 1);
  }

  static int offset(SourceFile file, org.eclipse.lsp4j.Position position) {
    return file.offset(
        new Position(position.getLine() + 1, position.getCharacter() + 1),
        Position.Counting.UTF_16);
  }

  Location location(Span span) {
    return new Location(folder.uri(span.file().name()), range(span));
  }

  /** A finding in the words of the command line. */
  Diagnostic diagnostic(dev.doublet.diagnostic.Diagnostic finding) {
    Diagnostic message = new Diagnostic();
    message.setRange(range(finding.primary().span()));
    message.setSeverity(severity(finding.severity()));
    message.setSource(SOURCE);
    message.setCode(finding.name());
    String explanation = TextRendering.explanation(finding).stripTrailing();
    message.setMessage(
        Visible.line(finding.message()) + (explanation.isEmpty() ? "" : "\n" + explanation));
    message.setRelatedInformation(finding.related().stream().map(this::related).toList());
    return message;
  }

  private DiagnosticRelatedInformation related(Label label) {
    String words = label.text().isEmpty() ? label.span().text() : label.text();
    return new DiagnosticRelatedInformation(location(label.span()), Visible.line(words));
  }

  private static DiagnosticSeverity severity(Severity severity) {
    return switch (severity) {
      case ERROR -> DiagnosticSeverity.Error;
      case WARNING -> DiagnosticSeverity.Warning;
      case NOTE -> DiagnosticSeverity.Information;
    };
  }

  /** Lines in Markdown that shows them as they are. */
  static String markdown(List<String> parts) {
    StringBuilder text = new StringBuilder();
    for (String part : parts) {
      String shown = Visible.of(part);
      if (part.contains("\n")) {
        text.append("```text\n").append(shown.replace("```", "'''")).append("\n```\n\n");
      } else {
        text.append(escaped(shown)).append("\n\n");
      }
    }
    return text.toString().strip();
  }

  private static String escaped(String line) {
    return line.replaceAll("([\\\\*_<>\\[\\]#&!|~])", "\\\\$1");
  }
}
