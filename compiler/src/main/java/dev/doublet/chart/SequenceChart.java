package dev.doublet.chart;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Movement;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Sequence;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * An aspect sequence chart: for each aspect, which may stand at the next signal and at the second,
 * the least restrictive first and the most restrictive at the bottom.
 *
 * @param title the rulebook's title
 * @param rows one an aspect
 * @param unannounced aspects that no aspect may stand before
 * @param unmet aspects that announce what no aspect permits
 */
public record SequenceChart(
    String title, List<Row> rows, List<String> unannounced, List<String> unmet) {

  /**
   * One aspect.
   *
   * @param aspect its name
   * @param permission what it allows, in words
   * @param announced aspects that permit exactly what it announces
   * @param next all that may stand at the next signal
   * @param second all that may stand at the second signal
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
    List<Aspect> order = order(book.aspects());
    List<Row> rows = new ArrayList<>();
    List<String> unannounced = new ArrayList<>();
    List<String> unmet = new ArrayList<>();
    for (Aspect aspect : order) {
      List<String> exact =
          names(order.stream().filter(a -> Sequence.announces(aspect, a)).toList());
      rows.add(
          new Row(
              aspect.name(),
              aspect.permission().words(),
              exact,
              names(sorted(order, sequence.next(aspect))),
              names(sorted(order, sequence.second(aspect)))));
      if (sequence.before(aspect).isEmpty()) {
        unannounced.add(aspect.name());
      }
      Movement told = Sequence.announced(aspect.permission());
      boolean tells =
          !(told instanceof Movement.Unsaid)
              && !(aspect.permission().here() instanceof Movement.Stop);
      if (tells && exact.isEmpty()) {
        unmet.add(aspect.name() + " (" + told.words() + ")");
      }
    }
    return new SequenceChart(book.title(), rows, unannounced, unmet);
  }

  /** The chart as text that ends with a line end. */
  public String text() {
    StringBuilder out = new StringBuilder("Aspect sequence chart: " + title + "\n");
    for (Row row : rows) {
      out.append('\n').append(row.aspect()).append(" (").append(row.permission()).append(")\n");
      line(out, "announces     ", row.announced());
      line(out, "next signal   ", brief(row.next()));
      line(out, "second signal ", brief(row.second()));
    }
    out.append('\n');
    line(out, "no aspect may stand before: ", unannounced);
    line(out, "no aspect permits exactly what is announced by: ", unmet);
    return out.toString();
  }

  /** All names at once where that is shorter: "any", or "all but" a few. */
  private List<String> brief(List<String> names) {
    List<String> others = new ArrayList<>(rows.stream().map(Row::aspect).toList());
    others.removeAll(names);
    if (others.isEmpty()) {
      return List.of("any");
    }
    return others.size() <= names.size() / 2
        ? List.of("all but " + String.join(", ", others))
        : names;
  }

  private static void line(StringBuilder out, String head, List<String> names) {
    out.append("  ").append(head).append(names.isEmpty() ? "-" : String.join(", ", names));
    out.append('\n');
  }

  private static List<Aspect> order(List<Aspect> aspects) {
    return aspects.stream()
        .sorted(Comparator.comparingLong((Aspect a) -> -below(aspects, a)))
        .toList();
  }

  /** How many aspects are known to be more restrictive. */
  private static long below(List<Aspect> aspects, Aspect aspect) {
    return aspects.stream()
        .filter(
            a ->
                a.permission().against(aspect.permission()) == Permission.Standing.MORE_RESTRICTIVE)
        .count();
  }

  private static List<Aspect> sorted(List<Aspect> order, List<Aspect> some) {
    return order.stream().filter(some::contains).toList();
  }

  private static List<String> names(List<Aspect> aspects) {
    return aspects.stream().map(Aspect::name).toList();
  }
}
