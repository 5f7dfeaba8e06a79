package dev.doublet.cells;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A block of points: all those whose value lies in the given set for each variable. A cube is never
 * empty, so it always has a point to show.
 *
 * @param sets one set for each variable, none of them empty
 */
public record Cube(List<Values> sets) {

  /**
   * Keeps its own copy of the list.
   *
   * @throws IllegalArgumentException if a set is empty
   */
  public Cube {
    sets = List.copyOf(sets);
    for (Values set : sets) {
      if (set.isEmpty()) {
        throw new IllegalArgumentException("a cube has at least one point");
      }
    }
  }

  /** One point of the cube: the first value of each set. */
  public int[] point() {
    return sets.stream().mapToInt(Values::first).toArray();
  }

  /** How many points the cube has. */
  public BigInteger size() {
    BigInteger points = BigInteger.ONE;
    long few = 1;
    for (Values set : sets) {
      int count = set.count();
      // Large numbers are slow, and are made only of what no longer fits a small one.
      if (few > Long.MAX_VALUE / count) {
        points = points.multiply(BigInteger.valueOf(few));
        few = 1;
      }
      few *= count;
    }
    return points.multiply(BigInteger.valueOf(few));
  }

  /** Tells whether every point of {@code other} lies in this cube. */
  public boolean containsAll(Cube other) {
    for (int v = 0; v < sets.size(); v++) {
      if (!sets.get(v).containsAll(other.sets.get(v))) {
        return false;
      }
    }
    return true;
  }

  /** The points of this cube that a row covers; empty if there are none. */
  public Optional<Cube> and(Row row) {
    List<Values> shared = new ArrayList<>(sets.size());
    for (int v = 0; v < sets.size(); v++) {
      shared.add(sets.get(v).and(row.sets().get(v)));
    }
    return shared.stream().anyMatch(Values::isEmpty)
        ? Optional.empty()
        : Optional.of(new Cube(shared));
  }
}
