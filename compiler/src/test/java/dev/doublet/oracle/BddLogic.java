package dev.doublet.oracle;

import com.github.javabdd.BDD;
import java.math.BigInteger;
import java.util.Collection;
import java.util.List;

/** Formulas as decision diagrams. */
final class BddLogic implements Logic<BDD> {
  private final BddSpace space;

  BddLogic(List<Integer> sizes) {
    this.space = new BddSpace(sizes);
  }

  @Override
  public BDD oneOf(int variable, Collection<Integer> values) {
    return space.oneOf(variable, values);
  }

  @Override
  public BDD all(List<BDD> formulas) {
    BDD all = space.all();
    formulas.forEach(f -> all.andWith(f.id()));
    return all;
  }

  @Override
  public BDD any(List<BDD> formulas) {
    BDD any = space.none();
    formulas.forEach(f -> any.orWith(f.id()));
    return any;
  }

  @Override
  public BDD not(BDD formula) {
    return formula.not();
  }

  @Override
  public boolean possible(List<BDD> formulas) {
    return !all(formulas).isZero();
  }

  @Override
  public BigInteger count(BDD formula) {
    return space.count(formula);
  }
}
