package dev.doublet.facts;

import dev.doublet.cells.Cube;
import dev.doublet.cells.Gaps;
import dev.doublet.cells.Row;
import dev.doublet.cells.Table;
import dev.doublet.cells.Values;
import dev.doublet.cells.Variable;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
    Map<String, Integer> places = new HashMap<>();
    facts.book().aspects().forEach(a -> places.put(a.name(), places.size()));
    List<Integer> aspects = look.shown().stream().map(s -> places.get(s.aspect().name())).toList();
    List<List<Choice>> patterns = look.shown().stream().map(s -> s.pattern().choices()).toList();
    return of(facts.book(), look.heads(), patterns, aspects, seenAs);
  }

  /**
   * Some patterns of one look.
   *
   * @param patterns what each head may show, at least one
   */
  public static PatternTable of(Rulebook book, List<List<Choice>> patterns) {
    List<Integer> results = Collections.nCopies(patterns.size(), 0);
    return of(book, patterns.get(0).size(), patterns, results, UnaryOperator.identity());
  }

  private static PatternTable of(
      Rulebook book,
      int heads,
      List<List<Choice>> patterns,
      List<Integer> results,
      UnaryOperator<Display> seenAs) {
    List<List<Display>> displays = new ArrayList<>();
    List<Map<Display, Integer>> values = new ArrayList<>();
    List<Variable> variables = new ArrayList<>();
    for (int head = 0; head < heads; head++) {
      SortedSet<Display> named = new TreeSet<>();
      named.add(Display.DARK);
      for (List<Choice> pattern : patterns) {
        pattern.get(head).displays().forEach(d -> named.add(seenAs.apply(d)));
      }
      // The one more comes last, so that a picture is made of named displays where it can be.
      List<Display> domain = new ArrayList<>(named);
      all(book).map(seenAs).filter(d -> !named.contains(d)).findFirst().ifPresent(domain::add);
      displays.add(List.copyOf(domain));
      Map<Display, Integer> value = new HashMap<>();
      domain.forEach(d -> value.put(d, value.size()));
      values.add(value);
      variables.add(new Variable("head " + (head + 1), domain.size()));
    }
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < patterns.size(); i++) {
      rows.add(row(patterns.get(i), values, results.get(i), seenAs));
    }
    return new PatternTable(List.copyOf(displays), new Table(variables, rows));
  }

  /** The table for the engine. */
  public Table table() {
    return table;
  }

  /** A row as a cube. */
  public Cube cube(int row) {
    return new Cube(table.rows().get(row).sets());
  }

  /** What two rows that meet have in common. */
  public Cube shared(int first, int second) {
    return cube(first).and(table.rows().get(second)).orElseThrow();
  }

  /** The parts of a cube in which two heads show displays that are not the same. */
  public List<Cube> apart(Cube cube, int head, int other) {
    List<Cube> apart = new ArrayList<>();
    Values lit = cube.sets().get(head);
    for (int value = 0; value < lit.size() && head != other; value++) {
      int same = displays.get(other).indexOf(displays.get(head).get(value));
      Values others = cube.sets().get(other);
      Values rest = same < 0 ? others : others.minus(Values.only(others.size(), same));
      if (lit.contains(value) && !rest.isEmpty()) {
        List<Values> sets = new ArrayList<>(cube.sets());
        sets.set(head, Values.only(lit.size(), value));
        sets.set(other, rest);
        apart.add(new Cube(sets));
      }
    }
    return apart;
  }

  /**
   * Looks for a picture of a cube that none of some rows covers.
   *
   * @param rows their places in the table
   * @param budget how many steps of the engine may be taken
   * @return at most one cube, inside the given one
   */
  public Gaps outside(List<Integer> rows, Cube within, long budget) {
    List<Row> some = rows.stream().map(table.rows()::get).toList();
    return Gaps.first(new Table(table.variables(), some), within, budget);
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

  /** Every display that the book has words for, steady ones first. */
  private static Stream<Display> all(Rulebook book) {
    SortedSet<String> looks = new TreeSet<>();
    book.colours().forEach(c -> looks.add(c.name()));
    book.heads().forEach(h -> h.figures().forEach(f -> looks.add(f.name())));
    return Stream.concat(
        looks.stream().map(Display::steady),
        book.rhythms().stream()
            .flatMap(r -> looks.stream().map(look -> new Display(look, r.name())))
            .filter(d -> !book.takesNoRhythm(d.look())));
  }

  private static Row row(
      List<Choice> pattern,
      List<Map<Display, Integer>> values,
      int result,
      UnaryOperator<Display> seenAs) {
    List<Values> sets = new ArrayList<>();
    for (int head = 0; head < values.size(); head++) {
      Choice choice = pattern.get(head);
      Map<Display, Integer> domain = values.get(head);
      sets.add(
          choice.isAny()
              ? Values.all(domain.size())
              : Values.of(
                  domain.size(),
                  choice.displays().stream().mapToInt(d -> domain.get(seenAs.apply(d))).toArray()));
    }
    return new Row(sets, result);
  }
}
