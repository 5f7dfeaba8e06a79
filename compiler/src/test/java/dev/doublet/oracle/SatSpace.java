package dev.doublet.oracle;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.sat4j.core.VecInt;
import org.sat4j.minisat.SolverFactory;
import org.sat4j.specs.ContradictionException;
import org.sat4j.specs.ISolver;
import org.sat4j.specs.IVecInt;
import org.sat4j.specs.TimeoutException;

/** Finite variables for a SAT solver: one literal for each value, of which exactly one is true. */
final class SatSpace {
  private final ISolver solver = SolverFactory.newDefault();
  private final int[] first;
  private final int[] sizes;
  private boolean contradiction;

  SatSpace(List<Integer> sizes) {
    this.sizes = sizes.stream().mapToInt(s -> s).toArray();
    this.first = new int[this.sizes.length];
    int literals = 0;
    for (int v = 0; v < this.sizes.length; v++) {
      first[v] = literals + 1;
      literals += this.sizes[v];
    }
    // Otherwise every question starts a thread that watches the clock.
    solver.setTimeoutOnConflicts(Integer.MAX_VALUE);
    solver.newVar(literals);
    for (int v = 0; v < this.sizes.length; v++) {
      int variable = v;
      try {
        solver.addExactly(
            new VecInt(IntStream.range(0, this.sizes[v]).map(x -> is(variable, x)).toArray()), 1);
      } catch (ContradictionException none) {
        contradiction = true;
      }
    }
  }

  /** The literal that says that a variable has a value. */
  int is(int variable, int value) {
    return first[variable] + value;
  }

  /** A literal of no variable. */
  int fresh() {
    return solver.nextFreeVarId(true);
  }

  /** Demands that one of some literals holds. */
  void demand(int... clause) {
    try {
      solver.addClause(new VecInt(clause));
    } catch (ContradictionException none) {
      contradiction = true;
    }
  }

  /** A point at which all demands hold, and the assumed literals with them. */
  Optional<int[]> point(IVecInt assumed) {
    try {
      if (contradiction || !solver.isSatisfiable(assumed)) {
        return Optional.empty();
      }
    } catch (TimeoutException late) {
      throw new IllegalStateException(late);
    }
    int[] point = new int[sizes.length];
    for (int v = 0; v < sizes.length; v++) {
      while (!solver.model(is(v, point[v]))) {
        point[v]++;
      }
    }
    return Optional.of(point);
  }
}
