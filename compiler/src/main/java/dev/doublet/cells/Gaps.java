package dev.doublet.cells;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * The points of a table that no row covers, as cubes.
 *
 * <p>Each cube meets no row and cannot be made wider in any one variable. Cubes may overlap, but
 * none lies inside another. If the list is complete, every uncovered point is in one of them.
 *
 * @param cubes the cubes, in the order they were found
 * @param complete whether the search ended within its budget: with no cubes, a complete answer
 *     proves that every point is covered, and an incomplete one says nothing
 * @param steps how much work was done
 */
public record Gaps(List<Cube> cubes, boolean complete, long steps) {

  /** Keeps its own copy of the list. */
  public Gaps {
    cubes = List.copyOf(cubes);
  }

  /**
   * Lists the gaps of a table.
   *
   * @param budget how many steps may be taken; a step is one row looked at in one box
   */
  public static Gaps of(Table table, long budget) {
    Tests tests = Tests.of(table);
    List<Cube> cubes = new ArrayList<>();
    Search search =
        new Search(
            tests,
            budget,
            box -> {
              Cube raw = new Cube(List.of(box));
              if (cubes.stream().noneMatch(cube -> cube.containsAll(raw))) {
                cubes.add(widened(table, raw));
              }
              return true;
            });
    search.explore(tests.everything(), IntStream.range(0, tests.rows()).toArray());
    return new Gaps(cubes, !search.cut(), search.steps());
  }

  /**
   * Counts the uncovered points exactly.
   *
   * @param budget how many steps may be taken, as for {@link #of}
   * @return the number, or nothing if the budget was spent first
   */
  public static Optional<BigInteger> uncovered(Table table, long budget) {
    Tests tests = Tests.of(table);
    BigInteger[] points = {BigInteger.ZERO};
    Search search =
        new Search(
            tests,
            budget,
            box -> {
              points[0] = points[0].add(new Cube(List.of(box)).size());
              return true;
            });
    search.explore(tests.everything(), IntStream.range(0, tests.rows()).toArray());
    return search.cut() ? Optional.empty() : Optional.of(points[0]);
  }

  private static Cube widened(Table table, Cube cube) {
    Values[] sets = cube.sets().toArray(Values[]::new);
    for (int v = 0; v < sets.length; v++) {
      int size = sets[v].size();
      sets[v] = Values.all(size);
      Row wide = new Row(Arrays.asList(sets), 0);
      int variable = v;
      sets[v] =
          Values.union(
                  size,
                  table.rows().stream()
                      .filter(wide::meets)
                      .map(row -> row.sets().get(variable))
                      .toList())
              .complement();
    }
    return new Cube(List.of(sets));
  }
}
