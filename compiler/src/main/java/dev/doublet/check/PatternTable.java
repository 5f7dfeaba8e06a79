package dev.doublet.check;

import dev.doublet.cells.Cube;
import dev.doublet.cells.Row;
import dev.doublet.cells.Table;
import dev.doublet.cells.Values;
import dev.doublet.cells.Variable;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;

/**
 * Patterns put to the engine as a table: one variable a head, one value a display, one row a
 * pattern. The displays are those that the patterns name, dark, and one more of the book if there
 * is one: it stands for all others, which no pattern but an {@code any} accepts.
 */
public final class PatternTable {
  private final List<List<Display>> displays;
  private final Table table;

  private PatternTable(List<List<Display>> displays, Table table) {
    this.displays = displays;
    this.table = table;
  }

  /** The patterns of a look, each row's result being the place of its aspect in the book. */
  public static PatternTable of(BookFacts facts, BookFacts.Look look) {
    return of(facts, look, UnaryOperator.identity());
  }

  /** The same with every display seen as something else, such as without its rhythm. */
  public static PatternTable of(
      BookFacts facts, BookFacts.Look look, UnaryOperator<Display> seenAs) {
    List<List<Display>> displays = new ArrayList<>();
    List<Variable> variables = new ArrayList<>();
    for (int head = 0; head < look.heads(); head++) {
      SortedSet<Display> named = new TreeSet<>();
      named.add(Display.DARK);
      for (BookFacts.Shown shown : look.shown()) {
        shown.pattern().choices().get(head).displays().forEach(d -> named.add(seenAs.apply(d)));
      }
      // The one more comes last, so that a picture is made of named displays where it can be.
      List<Display> domain = new ArrayList<>(named);
      all(facts.book())
          .map(seenAs)
          .filter(d -> !named.contains(d))
          .findFirst()
          .ifPresent(domain::add);
      displays.add(List.copyOf(domain));
      variables.add(new Variable("head " + (head + 1), domain.size()));
    }
    List<Row> rows = new ArrayList<>();
    for (BookFacts.Shown shown : look.shown()) {
      rows.add(
          row(shown.pattern(), displays, facts.book().aspects().indexOf(shown.aspect()), seenAs));
    }
    return new PatternTable(List.copyOf(displays), new Table(variables, rows));
  }

  /** The table for the engine. */
  public Table table() {
    return table;
  }

  /** A picture inside a cube: at each head the first display that the cube allows. */
  public List<Display> picture(Cube cube) {
    List<Display> picture = new ArrayList<>();
    int[] point = cube.point();
    for (int head = 0; head < point.length; head++) {
      picture.add(displays.get(head).get(point[head]));
    }
    return picture;
  }

  /** A picture in words: "yellow over red". */
  public static String words(List<Display> picture) {
    return String.join(" over ", picture.stream().map(Display::words).toList());
  }

  /** Every display that the book has words for, steady ones first. */
  private static Stream<Display> all(Rulebook book) {
    SortedSet<String> looks = new TreeSet<>();
    book.colours().forEach(c -> looks.add(c.name()));
    book.heads().forEach(h -> h.figures().forEach(f -> looks.add(f.name())));
    return Stream.concat(
        looks.stream().map(Display::steady),
        book.rhythms().stream()
            .flatMap(r -> looks.stream().map(look -> new Display(look, r.name()))));
  }

  private static Row row(
      Pattern pattern, List<List<Display>> displays, int result, UnaryOperator<Display> seenAs) {
    List<Values> sets = new ArrayList<>();
    for (int head = 0; head < displays.size(); head++) {
      Choice choice = pattern.choices().get(head);
      List<Display> domain = displays.get(head);
      sets.add(
          choice.isAny()
              ? Values.all(domain.size())
              : Values.of(
                  domain.size(),
                  choice.displays().stream()
                      .mapToInt(d -> domain.indexOf(seenAs.apply(d)))
                      .toArray()));
    }
    return new Row(sets, result);
  }
}
