package dev.doublet.page;

import dev.doublet.diagnostic.Words;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Sequence;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The aspect sequence chart as SVG: a line an aspect, the least restrictive on top and the most
 * restrictive at the bottom, and arrows from each aspect to those that permit exactly what it
 * announces. Aspects that announce the same share a lane, so that a chart grows as its book does
 * and not as its square. What is wrong with an aspect's place in the sequence is handed in, and
 * drawn red.
 */
final class SequenceDrawing {
  private static final double LINE = 30;
  private static final double NAME = 250;
  private static final double LANE = 14;
  private static final int LETTERS = 32;

  private final Map<String, Integer> lines = new HashMap<>();
  private final List<Lane> lanes;
  private final Map<String, Integer> laneOf = new HashMap<>();
  private final Map<String, List<String>> gaps = new HashMap<>();
  private final double side;

  /** Aspects that announce the same, and those that permit it; lines of the chart, sorted. */
  private record Lane(SortedSet<Integer> from, SortedSet<Integer> to, List<Aspect> announced) {
    int top() {
      return Math.min(from.first(), to.first());
    }

    int length() {
      return Math.max(from.last(), to.last()) - top();
    }
  }

  private final List<Aspect> order;

  private SequenceDrawing(Sequence sequence, List<Aspect> order, List<Gap> gaps) {
    for (int i = 0; i < order.size(); i++) {
      int line = i;
      lines.put(order.get(i).name(), line);
      order.get(i).each().forEach(a -> lines.put(a.name(), line));
    }
    this.order = order;
    Map<Permission, List<Aspect>> announced = new HashMap<>();
    Map<List<Aspect>, Lane> byTargets = new LinkedHashMap<>();
    for (Aspect aspect : order) {
      List<Aspect> ahead =
          announced.computeIfAbsent(
              aspect.permission(),
              p -> wholes(aspect.each().stream().flatMap(a -> sequence.announced(a).stream())));
      if (!ahead.isEmpty()) {
        byTargets
            .computeIfAbsent(ahead, a -> new Lane(new TreeSet<>(), lines(a), a))
            .from()
            .add(lines.get(aspect.name()));
      }
    }
    // Short lanes stand nearest, so that few lines cross.
    this.lanes =
        byTargets.values().stream()
            .sorted(Comparator.comparingInt(Lane::length).thenComparingInt(Lane::top))
            .toList();
    for (int i = 0; i < lanes.size(); i++) {
      for (int line : lanes.get(i).from()) {
        laneOf.put(order.get(line).name(), i);
      }
    }
    for (Gap gap : gaps) {
      gap.aspects().stream()
          .map(a -> order.get(lines.get(a)).name())
          .distinct()
          .forEach(a -> this.gaps.computeIfAbsent(a, n -> new ArrayList<>()).add(gap.words()));
    }
    this.side = NAME + 30 + lanes.size() * LANE;
  }

  /** Aspects of one number as those of many that they are of, each once. */
  private List<Aspect> wholes(Stream<Aspect> aspects) {
    Set<String> families = aspects.map(Aspect::family).collect(Collectors.toSet());
    return order.stream().filter(a -> families.contains(a.family())).toList();
  }

  private SortedSet<Integer> lines(Collection<Aspect> aspects) {
    return aspects.stream()
        .map(aspect -> lines.get(aspect.name()))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  static String css() {
    return """
        .sequence .node{fill:none;stroke:currentColor;stroke-width:1}
        .sequence text{font:13px system-ui,sans-serif;fill:currentColor}
        .sequence .lanes{fill:none;stroke:currentColor;stroke-width:1;opacity:.6}
        .sequence use{fill:none;stroke:currentColor;stroke-width:2.5;visibility:hidden}
        .sequence .out{fill:none;stroke:currentColor;stroke-width:1;opacity:.6}
        .sequence .tip{fill:currentColor;stroke:none}
        .sequence g:hover>use,.sequence g:focus>use{visibility:visible}
        .sequence g:hover>.out,.sequence g:focus>.out{opacity:1;stroke-width:2.5}
        .sequence .gap .node{stroke:#dc2626;stroke-width:2.5}
        .sequence .why{fill:#dc2626}
        @media(prefers-color-scheme:dark){.sequence .why{fill:#f87171}.sequence .gap .node{stroke:#f87171}}
        @media print{.sequence .why{fill:#b91c1c}}
        """;
  }

  /** Draws a book's chart. */
  static String of(Rulebook book, List<Gap> gaps) {
    Sequence sequence = Sequence.of(book);
    List<Aspect> order =
        sequence.leastRestrictiveFirst().stream()
            .map(a -> book.aspect(a.family()).orElse(a))
            .distinct()
            .toList();
    return new SequenceDrawing(sequence, order, gaps).drawn(order, gaps);
  }

  private String drawn(List<Aspect> order, List<Gap> gaps) {
    StringBuilder drawn = new StringBuilder("<g class=\"lanes\">");
    SortedSet<Integer> announced = new TreeSet<>();
    for (int i = 0; i < lanes.size(); i++) {
      drawn.append("<path id=\"lane").append(i).append("\" d=\"").append(path(i)).append("\"/>");
      announced.addAll(lanes.get(i).to());
    }
    drawn.append("</g>");
    for (int line : announced) {
      drawn.append("<path class=\"tip\" d=\"M").append(Xml.number(NAME)).append(' ');
      drawn.append(Xml.number(tip(line))).append("l8 -3.5v7z\"/>");
    }
    order.forEach(aspect -> drawn.append(node(aspect)));
    double told = 0;
    for (Gap gap : gaps) {
      double y = middle(lines.get(gap.aspects().get(0))) + 4.5;
      drawn.append("<text class=\"why\" x=\"").append(Xml.number(side)).append("\" y=\"");
      drawn.append(Xml.number(y)).append("\">").append(Xml.text(gap.words())).append("</text>");
      told = Math.max(told, room(gap.words()));
    }
    String width = Xml.number(side + 20 + told);
    String height = Xml.number(order.size() * LINE + 8);
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"sequence\" role=\"group\""
        + " aria-label=\"Aspect sequence chart\" viewBox=\"0 0 "
        + width
        + " "
        + height
        + "\" width=\""
        + width
        + "\" height=\""
        + height
        + "\">"
        + drawn
        + "</svg>";
  }

  /** Along a lane, and from it to all that is announced there. */
  private String path(int place) {
    Lane lane = lanes.get(place);
    String x = Xml.number(x(place));
    double top = Math.min(middle(lane.from().first()), tip(lane.to().first()));
    double bottom = Math.max(middle(lane.from().last()), tip(lane.to().last()));
    StringBuilder path = new StringBuilder("M" + x + " " + Xml.number(top));
    path.append('V').append(Xml.number(bottom));
    for (int line : lane.to()) {
      path.append('M').append(x).append(' ').append(Xml.number(tip(line)));
      path.append('H').append(Xml.number(NAME + 5));
    }
    return path.toString();
  }

  private String node(Aspect aspect) {
    List<String> wrong = gaps.getOrDefault(aspect.name(), List.of());
    double y = middle(lines.get(aspect.name()));
    StringBuilder drawn = new StringBuilder("<g tabindex=\"0\"");
    drawn.append(wrong.isEmpty() ? "" : " class=\"gap\"").append("><title>");
    drawn.append(Xml.text(reason(aspect, wrong))).append("</title>");
    drawn.append("<rect class=\"node\" x=\"2\" y=\"").append(Xml.number(y - 11));
    drawn.append("\" width=\"").append(Xml.number(NAME - 4)).append("\" height=\"22\" rx=\"4\"/>");
    drawn.append("<text x=\"10\" y=\"").append(Xml.number(y + 4.5)).append("\">");
    drawn.append(Xml.text(Visible.brief(aspect.name(), LETTERS))).append("</text>");
    Integer lane = laneOf.get(aspect.name());
    if (lane != null) {
      String x = Xml.number(x(lane));
      drawn.append("<path class=\"out\" d=\"M").append(Xml.number(NAME)).append(' ');
      drawn.append(Xml.number(y)).append('H').append(x).append("\"/>");
      drawn.append("<circle class=\"tip\" cx=\"").append(x).append("\" cy=\"");
      drawn.append(Xml.number(y)).append("\" r=\"2.5\"/><use href=\"#lane").append(lane);
      drawn.append("\"/>");
    }
    return drawn.append("</g>").toString();
  }

  private String reason(Aspect aspect, List<String> wrong) {
    Integer lane = laneOf.get(aspect.name());
    String announces =
        lane == null
            ? "; no aspect permits exactly what it announces"
            : "; it announces "
                + Words.list(lanes.get(lane).announced().stream().map(Aspect::name).toList());
    return aspect.name()
        + " allows "
        + aspect.permission().words()
        + announces
        + (wrong.isEmpty() ? "" : ". " + String.join("; ", wrong));
  }

  /** Enough for a line of words in most fonts of 13 pixels; East Asian letters are square. */
  private static double room(String words) {
    return words.codePoints().mapToDouble(letter -> letter < 0x1100 ? 8 : 14).sum();
  }

  private static double x(int lane) {
    return NAME + 30 + lane * LANE;
  }

  /** Where arrows end: a little lower than they begin, so that one may lead to its own aspect. */
  private static double tip(int line) {
    return middle(line) + 6;
  }

  private static double middle(int line) {
    return line * LINE + LINE / 2;
  }
}
