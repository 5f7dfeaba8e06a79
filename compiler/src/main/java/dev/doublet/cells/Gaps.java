package dev.doublet.cells;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The points of a table that no row covers, as cubes.
 *
 * <p>Each cube meets no row. In a list of all gaps none can be made wider in any one variable;
 * cubes may overlap, but none lies inside another. If the list is complete, every uncovered point
 * is in one of them.
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
   * @param budget how many steps may be taken; a step is one row looked at in one box, or about as
   *     much work of another kind
   */
  public static Gaps of(Table table, long budget) {
    Sheet sheet = Sheet.of(table);
    Index index = new Index(table, sheet);
    StepBudget steps = new StepBudget(budget);
    List<Cube> cubes = new ArrayList<>();
    Search search =
        new Search(
            sheet,
            steps,
            box -> {
              Cube raw = new Cube(List.of(box));
              // A proven gap is kept even if no step is left; the search then finds none for its
              // next
              // box, and ends.
              steps.spend(cubes.size() + index.words());
              if (cubes.stream().noneMatch(cube -> cube.containsAll(raw))) {
                cubes.add(index.widened(raw));
              }
              return true;
            });
    search.explore(sheet.everything(), sheet.all());
    return new Gaps(cubes, !steps.ranOut(), steps.spent());
  }

  /**
   * Looks for one gap inside a cube, which takes less time than listing all.
   *
   * @param within where to look
   * @param budget how many steps may be taken, as for {@link #of}
   * @return at most one cube, which lies inside {@code within} and is not widened; with none, a
   *     complete answer proves that every point of it is covered
   */
  public static Gaps first(Table table, Cube within, long budget) {
    Sheet sheet = Sheet.of(table);
    StepBudget steps = new StepBudget(budget);
    List<Cube> cubes = new ArrayList<>();
    Search search =
        new Search(
            sheet,
            steps,
            box -> {
              cubes.add(new Cube(List.of(box)));
              return false;
            });
    search.explore(within.sets().toArray(Values[]::new), sheet.all());
    return new Gaps(cubes, !steps.ranOut(), steps.spent());
  }

  /**
   * Counts the uncovered points exactly.
   *
   * @param budget how many steps may be taken, as for {@link #of}
   * @return the number, or nothing if the budget was spent first
   */
  public static Optional<BigInteger> uncovered(Table table, long budget) {
    Sheet sheet = Sheet.of(table);
    StepBudget steps = new StepBudget(budget);
    Optional<int[][]> met = new Index(table, sheet).fewMet(steps);
    BigInteger points =
        met.isPresent()
            ? fewOverlap(table, sheet, met.get(), steps)
            : left(sheet, sheet.everything(), sheet.all(), steps);
    return steps.ranOut() ? Optional.empty() : Optional.of(points);
  }

  /** All points, less those that each row covers and no row before it. */
  private static BigInteger fewOverlap(Table table, Sheet sheet, int[][] met, StepBudget steps) {
    BigInteger points = new Cube(List.of(sheet.everything())).size();
    for (int r = 0; r < met.length; r++) {
      Row row = table.rows().get(r);
      if (!row.coversNothing()) {
        points =
            points.subtract(
                met[r].length == 0
                    ? new Cube(row.sets()).size()
                    : left(sheet, row.sets().toArray(Values[]::new), met[r], steps));
      }
    }
    return points;
  }

  /** How many points of a box are in none of some rows. */
  private static BigInteger left(Sheet sheet, Values[] box, int[] rows, StepBudget steps) {
    BigInteger[] points = {BigInteger.ZERO};
    Search search =
        new Search(
            sheet,
            steps,
            gap -> {
              points[0] = points[0].add(new Cube(List.of(gap)).size());
              return true;
            });
    search.explore(box, rows);
    return points[0];
  }
}
