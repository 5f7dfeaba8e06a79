package dev.doublet.cells;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Tables that cover every point once, except for what was taken away or added on purpose. */
@Tag("slow")
class SplitTreeTest {
  private static final long ENOUGH = 100_000_000;
  private static final String SIZES = "rows {0}, variables {1}, planted {2}";

  /** What the two questions say of a table, without the witnesses. */
  private record Verdict(List<List<Integer>> overlaps, BigInteger uncovered) {
    static Verdict on(Table table) {
      return new Verdict(Overlaps.of(table), Gaps.uncovered(table, ENOUGH).orElseThrow());
    }
  }

  @ParameterizedTest(name = SIZES)
  @CsvSource({"1, 3, 0", "12, 3, 1", "200, 8, 10", "2000, 24, 30", "10000, 24, 50"})
  void droppedRowsComeBackAsGaps(int count, int width, int planted) {
    Random random = new Random(count);
    List<Variable> variables = SplitTree.variables(width, random);
    List<Row> rows = SplitTree.rows(variables, count, random);
    List<Cube> dropped = rows.subList(0, planted).stream().map(r -> new Cube(r.sets())).toList();
    Table table = new Table(variables, rows.subList(planted, count));

    BigInteger volume = dropped.stream().map(Cube::size).reduce(BigInteger.ZERO, BigInteger::add);
    assertThat(Verdict.on(table)).isEqualTo(new Verdict(List.of(), volume));

    Gaps gaps = Gaps.of(table, ENOUGH);
    assertThat(gaps.complete()).isTrue();
    assertThat(dropped)
        .allSatisfy(
            row ->
                assertThat(gaps.cubes())
                    .anyMatch(cube -> new Row(cube.sets(), 0).covers(row.point())));
    assertThat(gaps.cubes())
        .allSatisfy(
            cube ->
                assertThat(dropped).anyMatch(row -> new Row(row.sets(), 0).covers(cube.point())));
    if (count >= 10_000) {
      // Dropped rows are now too rare to lie side by side and be joined.
      assertThat(gaps.cubes()).containsExactlyInAnyOrderElementsOf(dropped);
    }
  }

  @Test
  void workGrowsWithTheRowsAndTheCutsAboveThem() {
    assertThat(stepsForEachRow(1_000)).isLessThan(25);
    assertThat(stepsForEachRow(8_000)).isLessThan(25);
  }

  private static long stepsForEachRow(int count) {
    Random random = new Random(count);
    List<Variable> variables = SplitTree.variables(24, random);
    List<Row> rows = SplitTree.rows(variables, count, random);
    return Gaps.of(new Table(variables, rows.subList(1, count)), ENOUGH).steps() / count;
  }

  @ParameterizedTest(name = SIZES)
  @CsvSource({"1, 3, 1", "12, 3, 2", "200, 8, 10", "2000, 24, 30", "10000, 24, 50"})
  void repeatedRowsAreTheOnlyConflicts(int count, int width, int planted) {
    Random random = new Random(count);
    List<Variable> variables = SplitTree.variables(width, random);
    List<Row> rows = SplitTree.rows(variables, count, random);
    List<List<Integer>> pairs = new ArrayList<>();
    for (int r = 0; r < planted; r++) {
      pairs.add(List.of(r, rows.size()));
      rows.add(new Row(rows.get(r).sets(), -1));
    }
    Table table = new Table(variables, rows);

    assertThat(Verdict.on(table)).isEqualTo(new Verdict(pairs, BigInteger.ZERO));
    assertThat(Overlaps.conflicts(table)).isEqualTo(pairs);
  }

  @ParameterizedTest(name = SIZES)
  @CsvSource({"30, 3, 3", "300, 10, 20", "2000, 24, 30"})
  void theOrderOfVariablesAndValuesAndRowsChangesNoVerdict(int count, int width, int planted) {
    Random random = new Random(count);
    List<Variable> variables = SplitTree.variables(width, random);
    List<Row> rows = SplitTree.rows(variables, count, random);
    for (int r = 0; r < planted; r++) {
      rows.set(count - 1 - r, SplitTree.widened(rows.get(r), random));
    }
    Table table = new Table(variables, rows);
    Verdict verdict = Verdict.on(table);
    assertThat(verdict.overlaps()).isNotEmpty();
    assertThat(verdict.uncovered()).isPositive();

    assertThat(Verdict.on(withVariablesAndValuesMixed(table, random))).isEqualTo(verdict);

    List<Integer> order = new ArrayList<>(IntStream.range(0, count).boxed().toList());
    Collections.shuffle(order, random);
    Verdict mixed = Verdict.on(new Table(variables, order.stream().map(rows::get).toList()));
    assertThat(mixed.uncovered()).isEqualTo(verdict.uncovered());
    assertThat(mixed.overlaps())
        .map(pair -> pair.stream().map(order::get).sorted().toList())
        .containsExactlyInAnyOrderElementsOf(verdict.overlaps());
  }

  private static Table withVariablesAndValuesMixed(Table table, Random random) {
    List<Integer> order =
        new ArrayList<>(IntStream.range(0, table.variables().size()).boxed().toList());
    Collections.shuffle(order, random);
    Map<Integer, List<Integer>> newValues = new HashMap<>();
    for (int v : order) {
      List<Integer> values =
          new ArrayList<>(IntStream.range(0, table.variables().get(v).size()).boxed().toList());
      Collections.shuffle(values, random);
      newValues.put(v, values);
    }
    List<Row> rows = new ArrayList<>();
    for (Row row : table.rows()) {
      List<Values> sets = new ArrayList<>();
      for (int v : order) {
        Values set = row.sets().get(v);
        sets.add(
            Values.of(set.size(), SmallTables.values(set).map(newValues.get(v)::get).toArray()));
      }
      rows.add(new Row(sets, row.result()));
    }
    return new Table(order.stream().map(table.variables()::get).toList(), rows);
  }
}
