package dev.doublet.page;

import dev.doublet.chart.Labels;
import dev.doublet.chart.Labels.Label;
import dev.doublet.source.Visible;
import java.util.List;

/**
 * Labels as one page that needs nothing else, each a picture in millimetres with a line to cut
 * along. Rows are no wider than 186 mm, which A4 and Letter both hold beside margins of 12 mm.
 */
public final class LabelsPage {
  /** What a row may be wide, in mm; a row of the widest labels is no wider. */
  public static final int WIDEST = 186;

  private static final double SIDE = 1.2;
  private static final double LARGEST = 3.6;
  private static final double LEAST = 1.2;

  /** An em of a sans-serif letter that is wider than most; a guess of ours. */
  private static final double WIDE = 0.62;

  private static final String CSS =
      """
      :root{color-scheme:light}body{margin:0;padding:4mm;font:11pt/1.3 system-ui,sans-serif;background:#fff;color:#000}
      main{width:186mm}h1{font-size:13pt;margin:0 0 2mm}h2{font-size:11pt;margin:3mm 0 1mm;break-after:avoid}p{margin:1mm 0}
      .labels{line-height:0;font-size:0}svg{display:inline-block;vertical-align:top;break-inside:avoid}
      rect{fill:#fff;stroke:#888;stroke-width:.1}text{font-family:system-ui,sans-serif;fill:#000}.name{font-weight:700}
      @media print{body{padding:0}}
      @page{margin:12mm}
      """;

  private LabelsPage() {}

  /**
   * The page.
   *
   * @param width of a label in mm, at most {@link #WIDEST}
   * @param height of a label in mm
   */
  public static String html(Labels labels, int width, int height) {
    StringBuilder page = new StringBuilder();
    ThrottleSheetPage.begin(page, "Labels", labels.title(), CSS);
    page.append("<p>Print at 100 %, not fitted to the page: this line is 100 mm long.</p>\n");
    page.append("<svg width=\"100mm\" height=\"2mm\" viewBox=\"0 0 100 2\" role=\"img\"");
    page.append(" aria-label=\"100 mm\"><path d=\"M.1 0V2M.1 1H99.9M99.9 0V2\" stroke=\"#000\"");
    page.append(" stroke-width=\".2\" fill=\"none\"/></svg>\n");
    group(page, "Signals", labels.signals(), width, height);
    group(page, "Cables, both ends", labels.cables(), width, height);
    return page.append("</main>\n</body>\n</html>\n").toString();
  }

  private static void group(
      StringBuilder page, String heading, List<Label> labels, int width, int height) {
    if (labels.isEmpty()) {
      return;
    }
    page.append("<h2>").append(heading).append("</h2>\n<div class=\"labels\">\n");
    labels.forEach(label -> page.append(svg(label, width, height)).append('\n'));
    page.append("</div>\n");
  }

  /** One label, of which a unit is a millimetre. */
  private static String svg(Label label, int width, int height) {
    StringBuilder svg = new StringBuilder();
    svg.append("<svg width=\"").append(width).append("mm\" height=\"").append(height);
    svg.append("mm\" viewBox=\"0 0 ").append(width).append(' ').append(height);
    svg.append("\"><rect x=\".05\" y=\".05\" width=\"").append(width - 1).append(".9\" height=\"");
    svg.append(height - 1).append(".9\"/>");
    List<String> lines = label.lines().stream().filter(l -> !l.isEmpty()).toList();
    double unit = height / (1.5 + lines.size());
    text(svg, label.name(), "name", 1.25 * unit, Math.min(1.15 * unit, LARGEST), width);
    for (int i = 0; i < lines.size(); i++) {
      text(svg, lines.get(i), "", (2.2 + i) * unit, Math.min(0.8 * unit, LARGEST), width);
    }
    return svg.append("</svg>").toString();
  }

  /** A line as large as fits, and cut where even the smallest letters would not. */
  private static void text(
      StringBuilder svg, String text, String sort, double y, double size, int width) {
    double room = width - 2 * SIDE;
    int letters = text.codePointCount(0, text.length());
    double fits = Math.max(LEAST, Math.min(size, room / (WIDE * Math.max(1, letters))));
    String shown = Visible.brief(text, Math.max(2, (int) (room / (WIDE * fits))));
    svg.append("<text").append(sort.isEmpty() ? "" : " class=\"" + sort + "\"");
    svg.append(" x=\"").append(SIDE).append("\" y=\"").append(Xml.number(y));
    svg.append("\" font-size=\"").append(Xml.number(fits)).append("\">");
    svg.append(Xml.text(shown)).append("</text>");
  }
}
