package dev.doublet.report;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Fact;
import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.source.Position;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;

/**
 * Draws diagnostics for people to read:
 *
 * <pre>
 * yard.aspects:41:20  error: aspects "Approach" and "Caution" look alike on form two-head
 *
 *   41 |   on two-head show yellow over red
 *      |                    ~~~~~~~~~~~~~~~ "Approach"
 *
 *   picture: yellow over red
 *   Why: one picture has one name (49 CFR 236.23(c)).
 *   Do: change one of the two patterns.
 *   [twin-aspects]
 * </pre>
 */
public final class TextRendering {
  private static final int WIDTH = 100;
  private static final int BEFORE = 40;

  private final boolean colour;
  private final Function<Diagnostic, String> drawing;

  /**
   * Chooses a rendering.
   *
   * @param colour true to mark severities and underlines with terminal colours
   */
  public TextRendering(boolean colour) {
    this(colour, said -> "");
  }

  /**
   * The same with drawings.
   *
   * @param drawing lines that show what one says, its names made visible; empty for most
   */
  TextRendering(boolean colour, Function<Diagnostic, String> drawing) {
    this.colour = colour;
    this.drawing = drawing;
  }

  /** One diagnostic as text that ends with a line end. */
  public String draw(Diagnostic diagnostic) {
    StringBuilder out = new StringBuilder();
    Span span = diagnostic.primary().span();
    Position from = span.from();
    out.append(Visible.line(span.file().name()))
        .append(':')
        .append(from.line())
        .append(':')
        .append(from.column());
    out.append("  ").append(paint(diagnostic.severity(), diagnostic.severity().word()));
    out.append(": ").append(Visible.line(diagnostic.message())).append("\n\n");
    drawLabels(diagnostic, out);
    String drawn = drawing.apply(diagnostic);
    out.append('\n').append(drawn).append(drawn.isEmpty() ? "" : "\n");
    out.append(explanation(diagnostic)).append("  [").append(diagnostic.name());
    return out.append("]\n").toString();
  }

  /** What follows the places: figures, why it matters and what to do, each on a line or none. */
  public static String explanation(Diagnostic diagnostic) {
    StringBuilder below = new StringBuilder();
    for (Fact fact : diagnostic.facts()) {
      below.append("  ").append(Visible.line(fact.name() + ": " + fact.value())).append('\n');
    }
    if (!diagnostic.why().isEmpty()) {
      below.append("  Why: ").append(Visible.line(why(diagnostic))).append('\n');
    }
    if (!diagnostic.help().isEmpty()) {
      below.append("  Do: ").append(Visible.line(diagnostic.help())).append('\n');
    }
    return below.toString();
  }

  /** The reason, and after it the sources that it does not name itself. */
  static String why(Diagnostic diagnostic) {
    List<String> unnamed =
        diagnostic.sources().stream().filter(s -> !diagnostic.why().contains(s)).toList();
    return unnamed.isEmpty()
        ? diagnostic.why()
        : diagnostic.why() + " (" + String.join("; ", unnamed) + ")";
  }

  /** All of them, with an empty line between. */
  public String draw(List<Diagnostic> diagnostics) {
    return String.join("\n", diagnostics.stream().map(this::draw).toList());
  }

  /** What was mended, a line each: where it was, what was wrong, and what was done. */
  public static String mended(List<Diagnostic> done) {
    StringBuilder out = new StringBuilder();
    for (Diagnostic one : done) {
      Span span = one.primary().span();
      out.append(Visible.line(span.file().name()))
          .append(':')
          .append(span.from().line())
          .append(':')
          .append(span.from().column())
          .append("  mended: ")
          .append(Visible.line(one.message() + " (" + one.fixes().get(0).title() + ")"))
          .append('\n');
    }
    return out.append(done.isEmpty() ? "" : "\n").toString();
  }

  private void drawLabels(Diagnostic diagnostic, StringBuilder out) {
    List<Label> labels = new ArrayList<>();
    labels.add(diagnostic.primary());
    labels.addAll(diagnostic.related());
    int digits = labels.stream().mapToInt(l -> digits(l.span().from().line())).max().orElse(1);
    SourceFile main = diagnostic.primary().span().file();
    List<Label> here =
        labels.stream()
            .filter(l -> l.span().file() == main)
            .sorted(Comparator.comparing(Label::span))
            .toList();
    LineWindow shown = LineWindow.NOTHING;
    for (Label label : here) {
      shown = drawLabel(label, diagnostic.severity(), digits, shown, out);
    }
    SourceFile shownFile = main;
    for (Label label : labels.stream().filter(l -> l.span().file() != main).toList()) {
      if (label.span().file() != shownFile) {
        shownFile = label.span().file();
        shown = LineWindow.NOTHING;
        Position from = label.span().from();
        out.append("  in ")
            .append(Visible.line(shownFile.name()))
            .append(':')
            .append(from.line())
            .append(":\n");
      }
      shown = drawLabel(label, diagnostic.severity(), digits, shown, out);
    }
  }

  private LineWindow drawLabel(
      Label label, Severity severity, int digits, LineWindow shown, StringBuilder out) {
    Span span = label.span();
    int line = span.from().line();
    String text = span.file().line(line);
    int start = Math.min(span.start() - span.file().lineStart(line), text.length());
    int end = Math.min(span.end() - span.file().lineStart(line), text.length());
    Window window = Window.around(text, start);
    LineWindow now = new LineWindow(line, window);
    if (!now.equals(shown)) {
      out.append("  ").append(pad(Integer.toString(line), digits)).append(" | ");
      out.append(window.text()).append('\n');
    }
    int from = window.column(start);
    int width = Math.max(1, window.column(Math.max(end, start)) - from);
    out.append("  ").append(" ".repeat(digits)).append(" | ");
    out.append(" ".repeat(from)).append(paint(severity, "~".repeat(width)));
    if (!label.text().isEmpty()) {
      out.append(' ').append(Visible.line(label.text()));
    }
    out.append('\n');
    return now;
  }

  private String paint(Severity severity, String text) {
    if (!colour) {
      return text;
    }
    int code =
        switch (severity) {
          case ERROR -> 31;
          case WARNING -> 33;
          case NOTE -> 36;
        };
    return "\u001b[1;" + code + "m" + text + "\u001b[0m";
  }

  private static int digits(int number) {
    return Integer.toString(number).length();
  }

  private static String pad(String text, int width) {
    return " ".repeat(width - text.length()) + text;
  }

  /** What the underline stands below. */
  private record LineWindow(int line, Window window) {
    private static final LineWindow NOTHING = new LineWindow(0, new Window("", 0, "", ""));
  }

  /** The part of a long line that is shown. */
  private record Window(String part, int skipped, String lead, String tail) {

    static Window around(String line, int start) {
      int from = line.length() <= WIDTH ? 0 : Math.max(0, Math.min(start - BEFORE, line.length()));
      int to = Math.min(line.length(), from + WIDTH);
      if (isWithinPair(line, from)) {
        from--;
      }
      if (isWithinPair(line, to)) {
        to++;
      }
      String lead = from > 0 ? "…" : "";
      String tail = to < line.length() ? "…" : "";
      return new Window(line.substring(from, to), from, lead, tail);
    }

    private static boolean isWithinPair(String line, int index) {
      return index > 0
          && index < line.length()
          && Character.isSurrogatePair(line.charAt(index - 1), line.charAt(index));
    }

    String text() {
      return lead + Visible.line(part) + tail;
    }

    int column(int index) {
      int inside = Math.max(0, Math.min(index - skipped, part.length()));
      String before = lead + Visible.line(part.substring(0, inside));
      return before.codePointCount(0, before.length()) + (index - skipped > part.length() ? 1 : 0);
    }
  }
}
