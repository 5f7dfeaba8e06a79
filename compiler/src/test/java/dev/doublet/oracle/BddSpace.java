package dev.doublet.oracle;

import com.github.javabdd.BDD;
import com.github.javabdd.BDDDomain;
import com.github.javabdd.BDDFactory;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** Finite variables for decision diagrams: the bits of each value's number. */
final class BddSpace {
  private static final int NODES = 400;

  private final BDDFactory factory;
  private final List<BDDDomain> domains = new ArrayList<>();
  private final BDD everything;

  BddSpace(List<Integer> sizes) {
    this(sizes, NODES);
  }

  /**
   * Makes a space.
   *
   * @param nodes how many nodes there is room for at first
   */
  BddSpace(List<Integer> sizes, int nodes) {
    factory = BDDFactory.init("java", nodes, nodes / 8);
    Silence.of(factory);
    // One after another, so that the bits of a variable stay together.
    sizes.forEach(size -> domains.add(factory.extDomain(Math.max(2L, size))));
    everything = factory.one();
    for (int v = 0; v < sizes.size(); v++) {
      everything.andWith(oneOf(v, IntStream.range(0, sizes.get(v)).boxed().toList()));
    }
  }

  /** All points. */
  BDD all() {
    return everything.id();
  }

  /** No point. */
  BDD none() {
    return factory.zero();
  }

  /** The points at which a variable has one of some values; only within {@link #all}. */
  BDD oneOf(int variable, Collection<Integer> values) {
    BDD any = factory.zero();
    values.forEach(value -> any.orWith(domains.get(variable).ithVar(value)));
    return any;
  }

  /** One of the points of a diagram. */
  Optional<int[]> point(BDD points) {
    BDD inside = points.and(everything);
    if (inside.isZero()) {
      return Optional.empty();
    }
    BDD one = inside.satOne();
    return Optional.of(
        domains.stream().mapToInt(domain -> one.scanVar(domain).intValueExact()).toArray());
  }

  /** How many points a diagram has, exactly; JavaBDD itself counts in floating point. */
  BigInteger count(BDD points) {
    BDD inside = points.and(everything);
    return below(inside, new HashMap<>()).shiftLeft(level(inside));
  }

  private BigInteger below(BDD node, Map<BDD, BigInteger> known) {
    if (node.isZero() || node.isOne()) {
      return node.isOne() ? BigInteger.ONE : BigInteger.ZERO;
    }
    BigInteger counted = known.get(node);
    if (counted == null) {
      counted = BigInteger.ZERO;
      for (BDD next : List.of(node.low(), node.high())) {
        counted = counted.add(below(next, known).shiftLeft(level(next) - level(node) - 1));
      }
      known.put(node, counted);
    }
    return counted;
  }

  private int level(BDD node) {
    return node.isZero() || node.isOne() ? factory.varNum() : node.level();
  }
}
