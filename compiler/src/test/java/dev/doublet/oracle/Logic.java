package dev.doublet.oracle;

import java.math.BigInteger;
import java.util.Collection;
import java.util.List;

/**
 * Formulas over finite variables, numbered from 0 with values from 0, and a solver for them.
 *
 * @param <F> a formula
 */
interface Logic<F> {

  /** Holds where a variable has one of some values. */
  F oneOf(int variable, Collection<Integer> values);

  /** Holds where all of some formulas do. */
  F all(List<F> formulas);

  /** Holds where any of some formulas does. */
  F any(List<F> formulas);

  /** Holds where a formula does not. */
  F not(F formula);

  /** Tells whether there is a point at which all of some formulas hold. */
  boolean possible(List<F> formulas);

  /** How many points there are at which a formula holds. */
  BigInteger count(F formula);
}
