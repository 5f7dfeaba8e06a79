package dev.doublet.power;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * Any circuit of resistors, sources of voltage and sources of current, solved by modified nodal
 * analysis (Ho, Ruehli and Brennan 1975) with a general matrix library: Kirchhoff's current law at
 * each node, and an equation for each source of voltage, whose current is unknown too. A resistor
 * of 0 ohms is a source of 0 volts.
 */
final class Circuit {
  private final Map<String, Integer> nodes = new LinkedHashMap<>();
  private final List<Branch> branches = new ArrayList<>();

  private enum Sort {
    RESISTOR,
    SOURCE,
    LOAD
  }

  private record Branch(Sort sort, String name, int from, int to, double value) {}

  void resistor(String name, String from, String to, double ohms) {
    branches.add(
        new Branch(ohms > 0 ? Sort.RESISTOR : Sort.SOURCE, name, node(from), node(to), ohms));
  }

  void source(String plus, String minus, double volts) {
    branches.add(new Branch(Sort.SOURCE, "", node(plus), node(minus), volts));
  }

  void load(String from, String to, double amps) {
    branches.add(new Branch(Sort.LOAD, "", node(from), node(to), amps));
  }

  private int node(String name) {
    return nodes.computeIfAbsent(name, n -> nodes.size());
  }

  /** Solves it, with one node at 0 volts. */
  Solved solve(String ground) {
    List<Branch> sources = branches.stream().filter(b -> b.sort() == Sort.SOURCE).toList();
    int size = nodes.size() + sources.size();
    RealMatrix law = new Array2DRowRealMatrix(size, size);
    RealVector right = new ArrayRealVector(size);
    for (Branch branch : branches) {
      switch (branch.sort()) {
        case RESISTOR -> {
          double siemens = 1 / branch.value();
          law.addToEntry(branch.from(), branch.from(), siemens);
          law.addToEntry(branch.to(), branch.to(), siemens);
          law.addToEntry(branch.from(), branch.to(), -siemens);
          law.addToEntry(branch.to(), branch.from(), -siemens);
        }
        case LOAD -> {
          right.addToEntry(branch.from(), -branch.value());
          right.addToEntry(branch.to(), branch.value());
        }
        case SOURCE -> {
          int unknown = nodes.size() + sources.indexOf(branch);
          law.addToEntry(branch.from(), unknown, 1);
          law.addToEntry(branch.to(), unknown, -1);
          law.addToEntry(unknown, branch.from(), 1);
          law.addToEntry(unknown, branch.to(), -1);
          right.setEntry(unknown, branch.value());
        }
      }
    }
    int zero = nodes.get(ground);
    law.setRowVector(zero, new ArrayRealVector(size));
    law.setEntry(zero, zero, 1);
    right.setEntry(zero, 0);
    RealVector solved = new LUDecomposition(law, 1e-14).getSolver().solve(right);
    return new Solved(this, sources, solved);
  }

  /** Volts at each node, and amperes in each source. */
  record Solved(Circuit circuit, List<Branch> sources, RealVector values) {

    double volts(String node) {
      return values.getEntry(circuit.nodes.get(node));
    }

    /** What flows through the branches of a name together, from their first node to the other. */
    double amps(String name) {
      return circuit.branches.stream()
          .filter(b -> b.name().equals(name))
          .mapToDouble(this::amps)
          .sum();
    }

    /** The most that flows through any branch of a name, whichever way. */
    double most(String name) {
      return circuit.branches.stream()
          .filter(b -> b.name().equals(name) && b.sort() == Sort.RESISTOR)
          .mapToDouble(b -> Math.abs(amps(b)))
          .max()
          .orElse(0);
    }

    private double amps(Branch branch) {
      return branch.sort() == Sort.SOURCE
          ? values.getEntry(circuit.nodes.size() + sources.indexOf(branch))
          : (values.getEntry(branch.from()) - values.getEntry(branch.to())) / branch.value();
    }
  }
}
