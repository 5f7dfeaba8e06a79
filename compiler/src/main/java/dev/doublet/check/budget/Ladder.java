package dev.doublet.check.budget;

import java.util.Arrays;
import java.util.List;

/**
 * The exact solution of a row of loads on a two-wire line of equal pieces, held at one voltage
 * where it is fed. Node 0 is the line's start and node k the kth load. Between two feeds each load
 * draws from both in the ratio of the distances (Kirchhoff); beyond the outer feeds from the one
 * there is. Every load draws a constant current, whatever its voltage, as one-wire LEDs do.
 *
 * @param drops volts lost on the way to each node, out and back, from node 0
 * @param amps current in each piece of line, piece k joining nodes k and k + 1; below 0 when it
 *     flows towards the start
 */
record Ladder(List<Double> drops, List<Double> amps) {

  /** Copies the lists. */
  Ladder {
    drops = List.copyOf(drops);
    amps = List.copyOf(amps);
  }

  /**
   * Solves a line in one pass over its nodes.
   *
   * @param loads amperes drawn at each node, from node 0
   * @param ohms resistance of one piece of line, both wires
   * @param feeds the nodes that are fed, sorted, at least one
   */
  static Ladder solve(double[] loads, double ohms, List<Integer> feeds) {
    double[] amps = new double[loads.length - 1];
    int first = feeds.get(0);
    int last = feeds.get(feeds.size() - 1);
    for (int piece = 0; piece < first; piece++) {
      amps[piece] = (piece == 0 ? 0 : amps[piece - 1]) - loads[piece];
    }
    for (int piece = amps.length - 1; piece >= last; piece--) {
      amps[piece] = (piece == amps.length - 1 ? 0 : amps[piece + 1]) + loads[piece + 1];
    }
    for (int i = 1; i < feeds.size(); i++) {
      between(loads, amps, feeds.get(i - 1), feeds.get(i));
    }
    double[] drops = new double[loads.length];
    for (int node = first - 1; node >= 0; node--) {
      drops[node] = drops[node + 1] - ohms * amps[node];
    }
    for (int node = first + 1; node < loads.length; node++) {
      drops[node] = feeds.contains(node) ? 0 : drops[node - 1] + ohms * amps[node - 1];
    }
    return new Ladder(boxed(drops), boxed(amps));
  }

  /** The node after the start that loses most; the first of equals. */
  int worst() {
    int worst = 1;
    for (int node = 2; node < drops.size(); node++) {
      worst = drops.get(node) > drops.get(worst) ? node : worst;
    }
    return worst;
  }

  /** Volts lost on the way to that node. */
  double most() {
    return drops.get(worst());
  }

  private static void between(double[] loads, double[] amps, int from, int to) {
    double entering = 0;
    for (int node = from + 1; node < to; node++) {
      entering += loads[node] * (to - node) / (to - from);
    }
    for (int piece = from; piece < to; piece++) {
      amps[piece] = entering;
      entering -= loads[piece + 1];
    }
  }

  private static List<Double> boxed(double[] values) {
    return Arrays.stream(values).boxed().toList();
  }
}
