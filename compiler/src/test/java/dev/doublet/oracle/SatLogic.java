package dev.doublet.oracle;

import java.math.BigInteger;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.sat4j.core.VecInt;

/** Formulas as literals, each kept equal to what it stands for by clauses (after Tseitin). */
final class SatLogic implements Logic<Integer> {
  private final List<Integer> sizes;
  private final SatSpace space;

  SatLogic(List<Integer> sizes) {
    this.sizes = List.copyOf(sizes);
    this.space = new SatSpace(sizes);
  }

  @Override
  public Integer oneOf(int variable, Collection<Integer> values) {
    return any(values.stream().map(value -> space.is(variable, value)).toList());
  }

  @Override
  public Integer all(List<Integer> formulas) {
    return -any(formulas.stream().map(f -> -f).toList());
  }

  @Override
  public Integer any(List<Integer> formulas) {
    if (formulas.size() == 1) {
      return formulas.get(0);
    }
    int any = space.fresh();
    formulas.forEach(f -> space.demand(any, -f));
    space.demand(
        IntStream.concat(IntStream.of(-any), formulas.stream().mapToInt(f -> f)).toArray());
    return any;
  }

  @Override
  public Integer not(Integer formula) {
    return -formula;
  }

  @Override
  public boolean possible(List<Integer> formulas) {
    return space.point(new VecInt(formulas.stream().mapToInt(f -> f).toArray())).isPresent();
  }

  /** Counts by forbidding one point after another, so only a few are counted quickly. */
  @Override
  public BigInteger count(Integer formula) {
    int counting = space.fresh();
    VecInt assumed = new VecInt(new int[] {formula, counting});
    long count = 0;
    Optional<int[]> point = space.point(assumed);
    while (point.isPresent()) {
      count++;
      int[] found = point.get();
      space.demand(
          IntStream.concat(
                  IntStream.of(-counting),
                  IntStream.range(0, sizes.size()).map(v -> -space.is(v, found[v])))
              .toArray());
      point = space.point(assumed);
    }
    return BigInteger.valueOf(count);
  }
}
