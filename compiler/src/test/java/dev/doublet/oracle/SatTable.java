package dev.doublet.oracle;

import dev.doublet.cells.Cube;
import dev.doublet.cells.Row;
import dev.doublet.cells.SmallTables;
import dev.doublet.cells.Table;
import dev.doublet.cells.Values;
import dev.doublet.cells.Variable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.sat4j.core.VecInt;

/** The engine's questions, put to a SAT solver. */
final class SatTable {
  private final Table table;

  SatTable(Table table) {
    this.table = table;
  }

  /** The pairs of rows that have a point in common. */
  List<List<Integer>> overlaps() {
    SatSpace space = space();
    int count = table.rows().size();
    int[] inside = new int[count];
    for (int r = 0; r < count; r++) {
      inside[r] = space.fresh();
      for (int v = 0; v < table.variables().size(); v++) {
        Values set = set(r, v);
        if (!set.isAll()) {
          int variable = v;
          int row = r;
          SmallTables.values(set.complement())
              .forEach(x -> space.demand(-inside[row], -space.is(variable, x)));
          space.demand(
              IntStream.concat(
                      IntStream.of(-inside[row]),
                      SmallTables.values(set).map(x -> space.is(variable, x)))
                  .toArray());
        }
      }
    }
    // From each row on there is a literal that says that the point is in one of the rows left.
    int[] later = new int[count + 1];
    later[count] = space.fresh();
    space.demand(-later[count]);
    for (int r = count - 1; r >= 0; r--) {
      later[r] = space.fresh();
      space.demand(-later[r], inside[r], later[r + 1]);
    }
    List<List<Integer>> pairs = new ArrayList<>();
    for (int r = 0; r < count; r++) {
      TreeSet<Integer> meeting = new TreeSet<>();
      VecInt assumed = new VecInt(new int[] {inside[r], later[r + 1]});
      Optional<int[]> point = space.point(assumed);
      while (point.isPresent()) {
        for (int other = r + 1; other < count; other++) {
          if (table.rows().get(other).covers(point.get()) && meeting.add(other)) {
            assumed.push(-inside[other]);
          }
        }
        point = space.point(assumed);
      }
      for (int other : meeting) {
        pairs.add(List.of(r, other));
      }
    }
    return pairs;
  }

  /** A point that no row covers. */
  Optional<int[]> gap() {
    return uncovered().point(new VecInt());
  }

  /** Cubes that meet no row and that together hold every point without a row. */
  List<Cube> gaps() {
    SatSpace space = uncovered();
    List<Cube> gaps = new ArrayList<>();
    Optional<int[]> point = space.point(new VecInt());
    while (point.isPresent()) {
      Cube gap = widened(point.get());
      gaps.add(gap);
      space.demand(outside(space, gap.sets()));
      point = space.point(new VecInt());
    }
    return gaps;
  }

  private SatSpace uncovered() {
    SatSpace space = space();
    table.rows().forEach(row -> space.demand(outside(space, row.sets())));
    return space;
  }

  /** A cube around a point of no row, given value after value while it meets none. */
  private Cube widened(int[] point) {
    List<Values> sets = new ArrayList<>();
    for (int v = 0; v < point.length; v++) {
      sets.add(Values.only(table.variables().get(v).size(), point[v]));
    }
    for (int v = 0; v < point.length; v++) {
      Values wide = Values.all(table.variables().get(v).size());
      for (Row row : table.rows()) {
        if (meets(row, sets, v)) {
          wide = wide.minus(row.sets().get(v));
        }
      }
      sets.set(v, wide);
    }
    return new Cube(sets);
  }

  /** Tells whether a row meets some sets, whatever one variable is. */
  private static boolean meets(Row row, List<Values> sets, int but) {
    return IntStream.range(0, sets.size())
        .allMatch(v -> v == but || row.sets().get(v).intersects(sets.get(v)));
  }

  private SatSpace space() {
    return new SatSpace(table.variables().stream().map(Variable::size).toList());
  }

  private Values set(int row, int variable) {
    Row asked = table.rows().get(row);
    return asked.sets().get(variable);
  }

  /** Of these literals one holds at every point outside a cube. */
  private static int[] outside(SatSpace space, List<Values> sets) {
    return IntStream.range(0, sets.size())
        .flatMap(v -> SmallTables.values(sets.get(v).complement()).map(x -> space.is(v, x)))
        .toArray();
  }
}
