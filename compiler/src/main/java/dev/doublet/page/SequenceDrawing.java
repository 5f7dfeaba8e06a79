package dev.doublet.page;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Sequence;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * The aspect sequence chart as SVG: a line an aspect, the least restrictive on top and the most
 * restrictive at the bottom, and an arrow from each aspect to those that permit exactly what it
 * announces. What is wrong with an aspect's place in the sequence is handed in, and drawn red.
 */
final class SequenceDrawing {
  private static final double LINE = 30;
  private static final double NAME = 250;
  private static final double LANE = 11;

  private SequenceDrawing() {}

  static String css() {
    return """
        .sequence .node{fill:none;stroke:currentColor;stroke-width:1}
        .sequence text{font:13px system-ui,sans-serif;fill:currentColor}
        .sequence .arrow{fill:none;stroke:currentColor;stroke-width:1;opacity:.6}
        .sequence .tip{fill:currentColor;stroke:none}
        .sequence g:hover .arrow,.sequence g:focus .arrow{opacity:1;stroke-width:2.2}
        .sequence .gap .node{stroke:#dc2626;stroke-width:2.5}
        .sequence .gap .why{fill:#dc2626}
        @media(prefers-color-scheme:dark){.sequence .gap .why{fill:#f87171}.sequence .gap .node{stroke:#f87171}}
        """;
  }

  /**
   * Draws a book's chart.
   *
   * @param gaps what is wrong with an aspect's place, in words, by the aspect's name
   */
  static String of(Rulebook book, Map<String, String> gaps) {
    Sequence sequence = Sequence.of(book);
    List<Aspect> order = sequence.leastRestrictiveFirst();
    StringBuilder drawn = new StringBuilder();
    Map<String, Integer> places = new HashMap<>();
    order.forEach(aspect -> places.put(aspect.name(), places.size()));
    SortedSet<Integer> announced = new TreeSet<>();
    long all = order.stream().filter(aspect -> !sequence.announced(aspect).isEmpty()).count();
    double side = NAME + 30 + all * LANE;
    int lanes = 0;
    for (int i = 0; i < order.size(); i++) {
      List<Aspect> ahead = sequence.announced(order.get(i));
      drawn.append(node(order.get(i), places, ahead, gaps, ahead.isEmpty() ? 0 : lanes++, side));
      ahead.forEach(next -> announced.add(places.get(next.name())));
    }
    for (int line : announced) {
      drawn.append("<path class=\"tip\" d=\"M").append(Xml.number(NAME)).append(' ');
      drawn.append(Xml.number(tip(line))).append("l8 -3.5v7z\"/>");
    }
    double height = order.size() * LINE + 8;
    double told = gaps.values().stream().mapToDouble(SequenceDrawing::room).max().orElse(0);
    double width = side + 20 + told;
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"sequence\" role=\"group\""
        + " aria-label=\"Aspect sequence chart\" viewBox=\"0 0 "
        + Xml.number(width)
        + " "
        + Xml.number(height)
        + "\" width=\""
        + Xml.number(width)
        + "\" height=\""
        + Xml.number(height)
        + "\">"
        + drawn
        + "</svg>";
  }

  private static String node(
      Aspect aspect,
      Map<String, Integer> places,
      List<Aspect> ahead,
      Map<String, String> gaps,
      int lane,
      double side) {
    int line = places.get(aspect.name());
    String gap = gaps.getOrDefault(aspect.name(), "");
    double y = middle(line);
    StringBuilder drawn = new StringBuilder();
    drawn
        .append("<g tabindex=\"0\"")
        .append(gap.isEmpty() ? "" : " class=\"gap\"")
        .append("><title>");
    drawn.append(Xml.text(reason(aspect, ahead, gap))).append("</title>");
    drawn.append("<rect class=\"node\" x=\"2\" y=\"").append(Xml.number(y - 11));
    drawn.append("\" width=\"").append(Xml.number(NAME - 4)).append("\" height=\"22\" rx=\"4\"/>");
    drawn.append("<text x=\"10\" y=\"").append(Xml.number(y + 4.5)).append("\">");
    drawn.append(Xml.text(brief(aspect.name()))).append("</text>");
    double x = NAME + 30 + lane * LANE;
    if (!ahead.isEmpty()) {
      drawn.append("<path class=\"arrow\" d=\"");
      for (Aspect next : ahead) {
        int to = places.get(next.name());
        drawn.append('M').append(Xml.number(NAME)).append(' ').append(Xml.number(y)).append('H');
        drawn.append(Xml.number(x)).append('V').append(Xml.number(tip(to))).append('H');
        drawn.append(Xml.number(NAME + 5));
      }
      drawn.append("\"/>");
    }
    if (!gap.isEmpty()) {
      drawn.append("<text class=\"why\" x=\"").append(Xml.number(side)).append("\" y=\"");
      drawn.append(Xml.number(y + 4.5)).append("\">").append(Xml.text(gap)).append("</text>");
    }
    return drawn.append("</g>").toString();
  }

  private static String reason(Aspect aspect, List<Aspect> ahead, String gap) {
    String allows = aspect.name() + " allows " + aspect.permission().words();
    String announces =
        ahead.isEmpty()
            ? "; no aspect permits exactly what it announces"
            : "; it announces " + String.join(", ", ahead.stream().map(Aspect::name).toList());
    return allows + announces + (gap.isEmpty() ? "" : ". " + gap);
  }

  /** Enough for a line of words in most fonts of 13 pixels; East Asian letters are square. */
  private static double room(String words) {
    return words.codePoints().mapToDouble(letter -> letter < 0x1100 ? 8 : 14).sum();
  }

  private static String brief(String name) {
    int letters = name.codePointCount(0, name.length());
    return letters <= 34 ? name : name.substring(0, name.offsetByCodePoints(0, 33)) + "…";
  }

  /** Where arrows end: a little lower than they begin, so that one may lead to its own aspect. */
  private static double tip(int line) {
    return middle(line) + 6;
  }

  private static double middle(int line) {
    return line * LINE + LINE / 2;
  }
}
