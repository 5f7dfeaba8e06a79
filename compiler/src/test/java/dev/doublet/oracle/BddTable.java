package dev.doublet.oracle;

import com.github.javabdd.BDD;
import dev.doublet.cells.Row;
import dev.doublet.cells.SmallTables;
import dev.doublet.cells.Table;
import dev.doublet.cells.Values;
import dev.doublet.cells.Variable;
import java.math.BigInteger;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;

/** The engine's questions, put to decision diagrams. */
final class BddTable {
  private static final int NODES = 200_000;
  private static final int NODES_OF_SMALL = 2_000;
  private static final int SMALL = 100;

  private final BddSpace space;
  private final List<BDD> rows = new ArrayList<>();

  BddTable(Table table) {
    this.space =
        new BddSpace(
            table.variables().stream().map(Variable::size).toList(),
            table.rows().size() < SMALL ? NODES_OF_SMALL : NODES);
    table.rows().forEach(row -> rows.add(points(row)));
  }

  /** The pairs of rows that have a point in common. */
  List<List<Integer>> overlaps() {
    List<List<Integer>> pairs = new ArrayList<>();
    for (int r = 0; r < rows.size(); r++) {
      for (int other = r + 1; other < rows.size(); other++) {
        BDD shared = rows.get(r).and(rows.get(other));
        if (!shared.isZero()) {
          pairs.add(List.of(r, other));
        }
        shared.free();
      }
    }
    return pairs;
  }

  /** All points that no row covers. */
  BDD uncovered() {
    // Like sizes together, so that few large diagrams are made.
    Deque<BDD> unions = new ArrayDeque<>();
    rows.forEach(row -> unions.add(row.id()));
    unions.add(space.none());
    while (unions.size() > 1) {
      unions.add(unions.remove().orWith(unions.remove()));
    }
    return space.all().andWith(unions.remove().not());
  }

  /** A point that no row covers. */
  Optional<int[]> gap() {
    return space.point(uncovered());
  }

  /** How many points no row covers. */
  BigInteger volume() {
    return space.count(uncovered());
  }

  private BDD points(Row row) {
    BDD points = space.all();
    for (int v = 0; v < row.sets().size(); v++) {
      Values set = row.sets().get(v);
      if (!set.isAll()) {
        points.andWith(space.oneOf(v, SmallTables.values(set).boxed().toList()));
      }
    }
    return points;
  }
}
