package dev.doublet.oracle;

import dev.doublet.cells.Row;
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
          set.complement().stream()
              .forEach(x -> space.demand(-inside[row], -space.is(variable, x)));
          space.demand(
              IntStream.concat(
                      IntStream.of(-inside[row]), set.stream().map(x -> space.is(variable, x)))
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
    SatSpace space = space();
    for (int r = 0; r < table.rows().size(); r++) {
      space.demand(outside(space, r));
    }
    return space.point(new VecInt());
  }

  /** The rows that lie within the union of earlier ones. */
  List<Integer> unreachable() {
    SatSpace space = space();
    List<Integer> unreachable = new ArrayList<>();
    for (int r = 0; r < table.rows().size(); r++) {
      VecInt assumed = new VecInt();
      int[] outside = outside(space, r);
      for (int literal : outside) {
        assumed.push(-literal);
      }
      if (table.rows().get(r).coversNothing() || space.point(assumed).isEmpty()) {
        unreachable.add(r);
      }
      space.demand(outside);
    }
    return unreachable;
  }

  private SatSpace space() {
    return new SatSpace(table.variables().stream().map(Variable::size).toList());
  }

  private Values set(int row, int variable) {
    Row asked = table.rows().get(row);
    return asked.sets().get(variable);
  }

  /** Of these literals one holds at every point outside a row. */
  private int[] outside(SatSpace space, int row) {
    return IntStream.range(0, table.variables().size())
        .flatMap(v -> set(row, v).complement().stream().map(x -> space.is(v, x)))
        .toArray();
  }
}
