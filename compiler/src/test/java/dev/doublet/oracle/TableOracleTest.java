package dev.doublet.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.cells.Cube;
import dev.doublet.cells.Gaps;
import dev.doublet.cells.Overlaps;
import dev.doublet.cells.Row;
import dev.doublet.cells.SmallTables;
import dev.doublet.cells.SplitTree;
import dev.doublet.cells.Table;
import dev.doublet.cells.Variable;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The engine, a SAT solver and decision diagrams answer alike. */
class TableOracleTest {
  private static final long ENOUGH = 100_000_000;

  @Property(tries = 500, seed = "1957")
  void allAnswerAlikeOnSmallTables(@ForAll("tables") Table table) {
    assertAlike(table);
  }

  @Tag("slow")
  @ParameterizedTest(name = "{0} rows over {1} variables, {2} dropped, {3} repeated, {4} widened")
  @CsvSource({
    "1, 3, 0, 1, 1",
    "12, 3, 1, 2, 2",
    "60, 6, 5, 5, 5",
    "200, 7, 10, 10, 10",
    "1000, 7, 30, 30, 30"
  })
  void allAnswerAlikeOnPartitionsWithMistakes(
      int count, int width, int dropped, int repeated, int widened) {
    assertAlike(partition(count, width, dropped, repeated, widened));
  }

  /** A table that covers every point once, but for rows dropped, repeated and widened. */
  static Table partition(int count, int width, int dropped, int repeated, int widened) {
    Random random = new Random(count);
    List<Variable> variables = SplitTree.variables(width, random);
    List<Row> parts = SplitTree.rows(variables, count, random);
    List<Row> rows = new ArrayList<>(parts.subList(dropped, count));
    rows.addAll(parts.subList(dropped, Math.min(count, dropped + repeated)));
    for (Row row : parts.subList(count - widened, count)) {
      rows.add(SplitTree.widened(row, random));
    }
    return new Table(variables, rows);
  }

  private static void assertAlike(Table table) {
    assertSatAgrees(table);
    BddTable bdd = new BddTable(table);
    assertThat(bdd.overlaps()).isEqualTo(Overlaps.of(table));
    BigInteger uncovered = Gaps.uncovered(table, ENOUGH).orElseThrow();
    assertThat(bdd.volume()).isEqualTo(uncovered);
    assertReal(table, bdd.gap(), uncovered);
  }

  /** Demands that a SAT solver answers every question as the engine does. */
  static void assertSatAgrees(Table table) {
    SatTable sat = new SatTable(table);
    assertThat(sat.overlaps()).isEqualTo(Overlaps.of(table));
    Gaps gaps = Gaps.of(table, ENOUGH);
    assertThat(gaps.complete()).isTrue();
    List<Cube> cubes = sat.gaps();
    assertThat(cubes)
        .allSatisfy(c -> assertThat(gaps.cubes()).anyMatch(g -> contains(g, c.point())));
    assertThat(gaps.cubes())
        .allSatisfy(g -> assertThat(cubes).anyMatch(c -> contains(c, g.point())));
    assertReal(table, sat.gap(), Gaps.uncovered(table, ENOUGH).orElseThrow());
  }

  /** Demands a point that no row covers and a cube does, or none where there is none. */
  private static void assertReal(Table table, Optional<int[]> witness, BigInteger uncovered) {
    assertThat(witness.isPresent()).isEqualTo(uncovered.signum() > 0);
    witness.ifPresent(
        point -> {
          assertThat(table.rows()).noneMatch(row -> row.covers(point));
          assertThat(Gaps.of(table, ENOUGH).cubes()).anyMatch(cube -> contains(cube, point));
        });
  }

  private static boolean contains(Cube cube, int[] point) {
    return new Row(cube.sets(), 0).covers(point);
  }

  @Provide
  Arbitrary<Table> tables() {
    return Arbitraries.randomValue(SmallTables::any);
  }
}
