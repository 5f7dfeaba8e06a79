package dev.doublet.cells;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigInteger;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TableTest {
  /** More points than a long counts, against the product of the sizes. */
  @ParameterizedTest
  @CsvSource({"2, 62", "2, 63", "2, 64", "3, 40", "5, 100", "64, 11", "7, 23"})
  void aCubeMayHaveMorePointsThanALongCounts(int size, int variables) {
    Cube cube = new Cube(Collections.nCopies(variables, Values.all(size)));
    assertThat(cube.size()).isEqualTo(BigInteger.valueOf(size).pow(variables));
  }

  private static final Variable SWITCH = new Variable("switch", 2);
  private static final Variable ADDRESS = new Variable("address", 2_048);

  @Test
  void aRowMustHaveASetForEachVariable() {
    Row row = new Row(List.of(Values.all(2)), 0);
    assertThatThrownBy(() -> new Table(List.of(SWITCH, ADDRESS), List.of(row)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("row 0 has 1 sets for 2 variables");
  }

  @Test
  void aSetMustBeMadeForItsVariable() {
    Row fits = new Row(List.of(Values.all(2_048)), 0);
    Row doesNot = new Row(List.of(Values.all(2)), 0);
    assertThatThrownBy(() -> new Table(List.of(ADDRESS), List.of(fits, doesNot)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("row 1 has a set over 2 values for address, which has 2048");
  }

  @Test
  void aVariableHasAValueAndACubeHasAPoint() {
    assertThatThrownBy(() -> new Variable("empty", 0)).hasMessageContaining("empty");
    assertThatThrownBy(() -> new Cube(List.of(Values.of(2))))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void aCubeIsItsPoints() {
    Cube cube = new Cube(List.of(Values.only(2, 1), Values.range(2_048, 7, 10)));
    assertThat(cube.point()).containsExactly(1, 7);
    assertThat(cube.size()).isEqualTo(3);
    assertThat(new Row(cube.sets(), 0).covers(1, 9)).isTrue();
    assertThat(new Row(cube.sets(), 0).covers(1, 10)).isFalse();
    assertThat(new Row(cube.sets(), 0).covers(cube.point())).isTrue();
    assertThat(new Row(cube.sets(), 0).covers(0, 7)).isFalse();
  }

  @Test
  void withoutVariablesThereIsOnePoint() {
    Table nothing = new Table(List.of(), List.of());
    assertThat(Gaps.of(nothing, 10).cubes()).containsExactly(new Cube(List.of()));
    assertThat(Gaps.uncovered(nothing, 10)).contains(BigInteger.ONE);

    Table twice = new Table(List.of(), List.of(new Row(List.of(), 0), new Row(List.of(), 1)));
    assertThat(Gaps.of(twice, 10).cubes()).isEmpty();
    assertThat(Overlaps.conflicts(twice)).hasSize(1);
  }

  @Test
  void anEmptyBudgetDecidesNothingAndSaysSo() {
    Row row = new Row(List.of(Values.only(2, 0)), 0);
    Table table = new Table(List.of(SWITCH), List.of(row, row));
    assertThat(Gaps.of(table, 0)).isEqualTo(new Gaps(List.of(), false, 0));
    assertThat(Gaps.uncovered(table, 0)).isEmpty();
  }
}
