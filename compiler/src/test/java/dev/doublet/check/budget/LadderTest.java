package dev.doublet.check.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

/** The ladder against the matrix of its nodes, and against sums done by hand. */
class LadderTest {
  private static final double OHMS = 0.05;

  /** A line with loads from node 0 and where it is fed. */
  record Line(List<Double> loads, List<Integer> feeds) {}

  @Provide
  Arbitrary<Line> lines() {
    return Arbitraries.integers()
        .between(2, 40)
        .flatMap(
            nodes ->
                Arbitraries.doubles()
                    .between(0, 0.1)
                    .list()
                    .ofSize(nodes)
                    .flatMap(
                        loads ->
                            Arbitraries.integers()
                                .between(0, nodes - 1)
                                .set()
                                .ofMinSize(1)
                                .ofMaxSize(Math.min(4, nodes))
                                .map(f -> new Line(loads, f.stream().sorted().toList()))));
  }

  @Property(tries = 500, seed = "1957")
  void every_node_has_the_voltage_that_the_whole_matrix_gives(@ForAll("lines") Line line) {
    double[] loads = line.loads().stream().mapToDouble(d -> d).toArray();
    Ladder ladder = Ladder.solve(loads, OHMS, line.feeds());
    double[] expected = byMatrix(loads, line.feeds());
    for (int node = 0; node < loads.length; node++) {
      assertThat(ladder.drops().get(node)).isCloseTo(expected[node], within(1e-9));
    }
    for (int piece = 0; piece + 1 < loads.length; piece++) {
      assertThat(ladder.amps().get(piece) * OHMS)
          .isCloseTo(expected[piece + 1] - expected[piece], within(1e-9));
    }
  }

  @Property(tries = 200, seed = "1957")
  void a_further_feed_never_lowers_any_voltage(
      @ForAll("lines") Line line, @ForAll @net.jqwik.api.constraints.IntRange(max = 39) int more) {
    double[] loads = line.loads().stream().mapToDouble(d -> d).toArray();
    List<Integer> feeds =
        java.util.stream.Stream.concat(
                line.feeds().stream(), java.util.stream.Stream.of(more % loads.length))
            .distinct()
            .sorted()
            .toList();
    Ladder before = Ladder.solve(loads, OHMS, line.feeds());
    Ladder after = Ladder.solve(loads, OHMS, feeds);
    for (int node = 0; node < loads.length; node++) {
      assertThat(after.drops().get(node)).isLessThanOrEqualTo(before.drops().get(node) + 1e-12);
    }
  }

  @Test
  void equal_loads_fed_from_one_end_lose_the_triangle_number_and_from_both_ends_a_quarter_of_it() {
    double[] loads = {0, 1, 1, 1, 1, 1, 1, 1, 1};
    assertThat(Ladder.solve(loads, 1, List.of(0)).drops().get(8)).isEqualTo(36);
    assertThat(Ladder.solve(loads, 1, List.of(0, 8)).drops().get(4)).isEqualTo(8);
    assertThat(Ladder.solve(loads, 1, List.of(0, 8)).amps())
        .containsExactly(3.5, 2.5, 1.5, 0.5, -0.5, -1.5, -2.5, -3.5);
  }

  /** Kirchhoff's current law at every node, solved by elimination; fed nodes are held at 0. */
  private static double[] byMatrix(double[] loads, List<Integer> feeds) {
    int size = loads.length;
    double[][] rows = new double[size][size + 1];
    for (int node = 0; node < size; node++) {
      if (feeds.contains(node)) {
        rows[node][node] = 1;
        continue;
      }
      for (int beside : new int[] {node - 1, node + 1}) {
        if (beside >= 0 && beside < size) {
          rows[node][node] += 1 / OHMS;
          rows[node][beside] -= 1 / OHMS;
        }
      }
      rows[node][size] = loads[node];
    }
    for (int column = 0; column < size; column++) {
      int pivot = column;
      for (int row = column; row < size; row++) {
        pivot = Math.abs(rows[row][column]) > Math.abs(rows[pivot][column]) ? row : pivot;
      }
      double[] swapped = rows[column];
      rows[column] = rows[pivot];
      rows[pivot] = swapped;
      for (int row = 0; row < size; row++) {
        double times = row == column ? 0 : rows[row][column] / rows[column][column];
        for (int i = column; times != 0 && i <= size; i++) {
          rows[row][i] -= times * rows[column][i];
        }
      }
    }
    double[] drops = new double[size];
    for (int node = 0; node < size; node++) {
      drops[node] = rows[node][size] / rows[node][node];
    }
    return drops;
  }
}
