package dev.doublet.chart;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Movement;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Sequence;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * An aspect sequence chart: for each aspect, which may stand at the next signal and at the second,
 * the least restrictive first and the most restrictive at the bottom.
 *
 * @param title the rulebook's title
 * @param rows one an aspect
 * @param unannounced aspects that no aspect may stand before
 */
public record SequenceChart(String title, List<Row> rows, List<String> unannounced) {
  private static final String LEGEND =
      """
        announces      aspects that permit exactly what this one says of the next signal
        next signal    all aspects that may stand there: a train that obeys this one is ready for them
        second signal  aspects that permit exactly what this one says of it, or else those that are
                       announced by what it announces; or less restrictive
      """;

  /**
   * One aspect.
   *
   * @param aspect its name
   * @param permission what it allows, in words
   * @param announced aspects that permit exactly what it announces, or why there are none
   * @param next all that may stand at the next signal, or why there are none
   * @param second those told of at the second signal, or why there are none
   */
  public record Row(
      String aspect,
      String permission,
      List<String> announced,
      List<String> next,
      List<String> second) {}

  /** Works out the chart of a rulebook. */
  public static SequenceChart of(Rulebook book) {
    Sequence sequence = Sequence.of(book);
    List<Aspect> order = sequence.leastRestrictiveFirst();
    List<Row> rows = new ArrayList<>();
    List<Aspect> alone = new ArrayList<>();
    for (Aspect aspect : order) {
      List<Aspect> next = inOrder(order, sequence.next(aspect));
      List<String> announced = names(order, sequence.announced(aspect));
      List<String> second = names(order, sequence.second(aspect));
      rows.add(
          new Row(
              aspect.name(),
              aspect.permission().words(),
              announced.isEmpty() ? List.of(whyNoNext(aspect)) : announced,
              next.isEmpty() ? List.of(whyNoNext(aspect)) : brief(order, next),
              second.isEmpty() ? List.of(whyNoSecond(aspect)) : second));
      if (sequence.before(aspect).isEmpty()) {
        alone.add(aspect);
      }
    }
    return new SequenceChart(book.title(), rows, Aspect.names(alone));
  }

  /** The chart as text that ends with a line end. */
  public String text() {
    StringBuilder out = new StringBuilder("Aspect sequence chart: " + title + "\n").append(LEGEND);
    for (Row row : rows) {
      out.append('\n').append(row.aspect()).append(" (").append(row.permission()).append(")\n");
      line(out, "announces      ", row.announced());
      line(out, "next signal    ", row.next());
      line(out, "second signal  ", row.second());
    }
    if (!unannounced.isEmpty()) {
      out.append('\n');
      line(out, "no aspect may stand before: ", unannounced);
    }
    return out.toString();
  }

  private static String whyNoNext(Aspect aspect) {
    return isHeld(aspect.permission().here())
        ? "(the train is held)"
        : "(no aspect permits " + aspect.permission().announced().words() + ")";
  }

  private static String whyNoSecond(Aspect aspect) {
    Permission said = aspect.permission();
    if (isHeld(said.here())) {
      return "(the train is held)";
    }
    if (isHeld(said.announced())) {
      return "(the train is held at the next signal)";
    }
    return said.second() instanceof Movement.Unsaid
        ? "(nothing that is announced announces any aspect)"
        : "(no aspect at the next signal leads to " + said.second().words() + ")";
  }

  private static boolean isHeld(Movement movement) {
    return movement instanceof Movement.Stop;
  }

  /** All names at once where that is shorter: "any", or "all but" a few. */
  private static List<String> brief(List<Aspect> order, List<Aspect> next) {
    Set<Aspect> these = new HashSet<>(next);
    List<String> names = Aspect.names(next);
    List<String> others = Aspect.names(order.stream().filter(a -> !these.contains(a)).toList());
    if (others.isEmpty()) {
      return List.of("any");
    }
    return others.size() <= names.size() / 2
        ? List.of("all but " + String.join(", ", others))
        : names;
  }

  private static void line(StringBuilder out, String head, List<String> names) {
    out.append("  ").append(head).append(String.join(", ", names)).append('\n');
  }

  private static List<Aspect> inOrder(List<Aspect> order, List<Aspect> some) {
    return order.stream().filter(new HashSet<>(some)::contains).toList();
  }

  private static List<String> names(List<Aspect> order, List<Aspect> some) {
    return Aspect.names(inOrder(order, some));
  }
}
