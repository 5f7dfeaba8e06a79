package dev.doublet.cells;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Tables whose answers were published by others. Rows are numbered from 0 here. */
class KnownAnswersTest {
  private static final long BUDGET = 1_000_000;
  private static final int FALSE = 0;
  private static final int TRUE = 1;

  /** kie-dmn-validation, test GapsOverlapsBoolean (Apache-2.0). */
  @Test
  void twoBooleansWithTheLastPairForgotten() {
    Table table =
        table(
            List.of(new Variable("p1", 2), new Variable("p2", 2)),
            row(0, bool(FALSE), bool(FALSE)),
            row(1, bool(FALSE), Values.all(2)),
            row(2, bool(TRUE), bool(FALSE)));

    assertThat(Gaps.of(table, BUDGET).cubes())
        .containsExactly(new Cube(List.of(bool(TRUE), bool(TRUE))));
    assertThat(Overlaps.of(table)).containsExactly(List.of(0, 1));
  }

  /** kie-dmn-validation, test MisleadingRules (Apache-2.0). Risk: 0 high, 1 medium, 2 low. */
  @Test
  void twoRulesThatContradictEachOtherAtMediumRisk() {
    Table table =
        table(
            List.of(new Variable("mitigated", 2), new Variable("risk", 3)),
            row(0, bool(TRUE), Values.only(3, 2)),
            row(1, Values.all(2), Values.only(3, 1)),
            row(2, bool(TRUE), Values.only(3, 0)),
            row(2, bool(FALSE), Values.all(3)));

    assertThat(Gaps.of(table, BUDGET).cubes()).isEmpty();
    assertThat(Gaps.of(table, BUDGET).complete()).isTrue();
    assertThat(Overlaps.conflicts(table)).containsExactly(List.of(1, 3));
    assertThat(new Cube(table.rows().get(1).sets()).and(table.rows().get(3)))
        .contains(new Cube(List.of(bool(FALSE), Values.only(3, 1))));
  }

  /** Maranget, "Warnings for pattern matching" (2007), example 2. 0 Nil, 1 One, 2 Cons. */
  @Test
  void theLastRowOfMarangetsListsIsUselessByAUnionOnly() {
    List<Variable> lists = List.of(new Variable("left", 3), new Variable("right", 3));
    Values any = Values.all(3);
    List<Row> rows = new ArrayList<>();
    for (int constructor = 0; constructor < 3; constructor++) {
      rows.add(row(2 * constructor, Values.only(3, constructor), any));
      rows.add(row(2 * constructor + 1, any, Values.only(3, constructor)));
    }

    Gaps gaps = Gaps.of(new Table(lists, rows.subList(0, 2)), BUDGET);
    assertThat(gaps.cubes())
        .containsExactly(new Cube(List.of(Values.of(3, 1, 2), Values.of(3, 1, 2))));
    assertThat(gaps.cubes().get(0).point()).containsExactly(1, 1);

    Table whole = new Table(lists, rows);
    assertThat(Gaps.of(whole, BUDGET).cubes()).isEmpty();

    // Useless: among the rows before it nothing of the last one is uncovered, which none does
    // alone.
    Cube last = new Cube(rows.get(5).sets());
    Gaps left = Gaps.first(new Table(lists, rows.subList(0, 5)), last, BUDGET);
    assertThat(left.cubes()).isEmpty();
    assertThat(left.complete()).isTrue();
    assertThat(rows.subList(0, 5)).noneMatch(row -> new Cube(row.sets()).containsAll(last));
  }

  /** The shape of rust-lang/rust pull request 118796. */
  @Tag("slow")
  @Test
  void oneTrueBooleanARowLeavesOneGapAndTakesLinearWork() {
    // One for each row, one for the box, and one for each 64 rows when the gap is widened.
    assertThat(stepsForOneTrueBooleanARow(200)).isEqualTo(200 + 1 + 4);
    assertThat(stepsForOneTrueBooleanARow(800)).isEqualTo(800 + 1 + 13);
  }

  private static long stepsForOneTrueBooleanARow(int n) {
    List<Variable> variables =
        IntStream.range(0, n).mapToObj(v -> new Variable("v" + v, 2)).toList();
    List<Row> rows = new ArrayList<>();
    for (int r = 0; r < n; r++) {
      List<Values> sets = new ArrayList<>(Collections.nCopies(n, Values.all(2)));
      sets.set(r, bool(TRUE));
      rows.add(new Row(sets, 0));
    }
    Gaps gaps = Gaps.of(new Table(variables, rows), BUDGET);
    assertThat(gaps.cubes()).containsExactly(new Cube(Collections.nCopies(n, bool(FALSE))));

    rows.add(new Row(Collections.nCopies(n, Values.all(2)), 1));
    Table withDefault = new Table(variables, rows);
    assertThat(Gaps.of(withDefault, BUDGET).cubes()).isEmpty();
    return gaps.steps();
  }

  /** rust-lang/rust, report 7462: a production compiler once took 55 s. */
  @Tag("slow")
  @Test
  void aDefaultAfterEveryValueIsUnreachableAndTakesLinearWork() {
    // One for each value's row, and one for the box of the default.
    assertThat(stepsForARowAValue(4_096)).isEqualTo(4_096 + 1);
    assertThat(stepsForARowAValue(65_536)).isEqualTo(65_536 + 1);
  }

  private static long stepsForARowAValue(int size) {
    List<Row> rows = new ArrayList<>();
    for (int x = 0; x < size; x++) {
      rows.add(row(x, Values.only(size, x)));
    }
    List<Variable> value = List.of(new Variable("value", size));
    Gaps left = Gaps.first(new Table(value, rows), new Cube(List.of(Values.all(size))), BUDGET);
    assertThat(left.cubes()).isEmpty();
    assertThat(left.complete()).isTrue();
    rows.add(row(size, Values.all(size)));
    Table table = new Table(value, rows);
    assertThat(Gaps.of(table, BUDGET)).isEqualTo(new Gaps(List.of(), true, size + 2));
    return left.steps();
  }

  /** kie-dmn-validation, test GapsCube3 (Apache-2.0), on half-steps: value x stands for x / 2. */
  @Test
  void threeNumbersLeaveFourKindsOfGap() {
    Variable number = new Variable("number", 7);
    Values any = Values.all(7);
    Values zeroToOne = Values.range(7, 0, 3);
    Values oneToThree = Values.range(7, 2, 7);
    Values twoToThree = Values.range(7, 4, 7);
    Table table =
        table(
            List.of(number, number, number),
            row(0, zeroToOne, Values.range(7, 0, 5), any),
            row(1, twoToThree, oneToThree, oneToThree));

    List<Cube> published =
        List.of(
            new Cube(List.of(zeroToOne, Values.range(7, 5, 7), any)),
            new Cube(List.of(Values.only(7, 3), any, any)),
            new Cube(List.of(twoToThree, Values.range(7, 0, 2), any)),
            new Cube(List.of(twoToThree, oneToThree, Values.range(7, 0, 2))));
    List<Cube> found = Gaps.of(table, BUDGET).cubes();
    assertThat(found).hasSameSizeAs(published);
    assertThat(published)
        .allSatisfy(gap -> assertThat(found).anyMatch(cube -> cube.containsAll(gap)));
    assertThat(found)
        .allSatisfy(cube -> assertThat(published).anyMatch(gap -> cube.containsAll(gap)));
    assertThat(Gaps.uncovered(table, BUDGET)).contains(BigInteger.valueOf(163));
  }

  private static Values bool(int value) {
    return Values.only(2, value);
  }

  private static Row row(int result, Values... sets) {
    return new Row(List.of(sets), result);
  }

  private static Table table(List<Variable> variables, Row... rows) {
    return new Table(variables, List.of(rows));
  }
}
