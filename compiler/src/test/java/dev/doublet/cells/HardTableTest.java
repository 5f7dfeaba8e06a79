package dev.doublet.cells;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;

/**
 * A table without any order, three sets in five of it wild, whose gaps are far too many to list:
 * what is said of it must still be true, and must say where it stops.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class HardTableTest {
  private Table table;

  @BeforeAll
  void drawRows() {
    Random random = new Random(60);
    List<Variable> variables = SplitTree.variables(24, random);
    List<Row> rows = new ArrayList<>();
    for (int r = 0; r < 1_000; r++) {
      List<Values> sets =
          variables.stream()
              .map(
                  v ->
                      random.nextInt(5) < 3
                          ? Values.all(v.size())
                          : Values.only(v.size(), random.nextInt(v.size())))
              .toList();
      rows.add(new Row(sets, r % 5));
    }
    table = new Table(variables, rows);
  }

  @Test
  void aGapIsProvenEarlyAndTheListIsSaidToBeCut() {
    Gaps gaps = Gaps.of(table, 10_000);
    assertThat(gaps.complete()).isFalse();
    assertThat(gaps.cubes()).isNotEmpty();
    for (Cube cube : gaps.cubes()) {
      assertThat(table.rows()).noneMatch(row -> row.covers(cube.point()));
    }
    assertThat(Gaps.uncovered(table, 10_000)).isEmpty();
  }

  @Test
  void everyTwoRowsSaidToOverlapHaveAPointInCommon() {
    for (List<Integer> pair : Overlaps.of(table)) {
      Row first = table.rows().get(pair.get(0));
      Row second = table.rows().get(pair.get(1));
      assertThat(new Cube(first.sets()).and(second))
          .hasValueSatisfying(
              shared -> {
                assertThat(first.covers(shared.point())).isTrue();
                assertThat(second.covers(shared.point())).isTrue();
              });
    }
  }
}
