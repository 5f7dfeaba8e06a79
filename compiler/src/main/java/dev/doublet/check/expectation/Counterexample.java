package dev.doublet.check.expectation;

import dev.doublet.cells.Cube;
import dev.doublet.cells.Gaps;
import dev.doublet.facts.PatternTable;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Expectation;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Looks for a picture that an expectation speaks of and that means something else. Either another
 * aspect is read from it, where one of that aspect's patterns covers it and none that outdoes the
 * pattern does, or it means nothing, where no pattern covers it.
 */
final class Counterexample {
  private final Rulebook book;
  private final Expectation.Meaning expected;
  private final List<Reading.Reads> held;
  private long left;
  private boolean complete = true;

  /**
   * Prepares to look.
   *
   * @param budget how many steps of the engine may be taken
   */
  Counterexample(Rulebook book, Expectation.Meaning expected, long budget) {
    this.book = book;
    this.expected = expected;
    this.held =
        Reading.on(book, expected.form()).stream()
            .filter(r -> expected.plates().containsAll(r.pattern().plates()))
            .flatMap(Counterexample::ofEachNumber)
            .toList();
    this.left = budget;
  }

  private static Stream<Reading.Reads> ofEachNumber(Reading.Reads reads) {
    return reads.aspect().each().stream()
        .map(a -> new Reading.Reads(a, a.shownBy(reads.pattern())));
  }

  /** The first one found; none is known when nothing is found. */
  Optional<List<Display>> find() {
    return expected.pictures().stream().flatMap(p -> in(p).stream()).findFirst();
  }

  /** False when the budget was spent before every picture was tried. */
  boolean isComplete() {
    return complete;
  }

  private Optional<List<Display>> in(List<Choice> pictures) {
    List<List<Choice>> rows = new ArrayList<>();
    held.forEach(r -> rows.add(r.pattern().choices()));
    rows.add(pictures);
    PatternTable table = PatternTable.of(book, rows);
    Cube all = table.cube(held.size());
    for (int i = 0; i < held.size(); i++) {
      Optional<Cube> shared = all.and(table.table().rows().get(i));
      if (shared.isPresent() && !held.get(i).aspect().name().equals(expected.aspect())) {
        Optional<List<Display>> found = outside(table, outdoing(i), shared.get());
        if (found.isPresent()) {
          return found;
        }
      }
    }
    return expected.aspect().isEmpty()
        ? Optional.empty()
        : outside(table, IntStream.range(0, held.size()).boxed().toList(), all);
  }

  private List<Integer> outdoing(int row) {
    return IntStream.range(0, held.size())
        .filter(i -> held.get(i).pattern().moreSpecificThan(held.get(row).pattern()))
        .boxed()
        .toList();
  }

  private Optional<List<Display>> outside(PatternTable table, List<Integer> rows, Cube within) {
    Gaps gaps = table.outside(rows, within, left);
    left -= gaps.steps();
    complete &= gaps.complete() || !gaps.cubes().isEmpty();
    return gaps.cubes().stream().map(table::picture).findFirst();
  }
}
