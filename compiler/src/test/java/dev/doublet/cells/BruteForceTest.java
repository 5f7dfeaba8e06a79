package dev.doublet.cells;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;

/** Each question's answer is compared with one found by trying every point. */
class BruteForceTest {
  private static final long ENOUGH = 1_000_000;

  @Property(tries = 1_000, seed = "1957")
  void overlapsAreThePairsThatShareAPoint(@ForAll("tables") Table table) {
    assertThat(Overlaps.of(table)).isEqualTo(overlaps(table));
  }

  private static List<List<Integer>> overlaps(Table table) {
    List<List<Integer>> overlaps = new ArrayList<>();
    List<Set<List<Integer>>> covered = covered(table);
    for (int i = 0; i < covered.size(); i++) {
      for (int j = i + 1; j < covered.size(); j++) {
        Set<List<Integer>> shared = new HashSet<>(covered.get(i));
        shared.retainAll(covered.get(j));
        if (!shared.isEmpty()) {
          overlaps.add(List.of(i, j));
        }
      }
    }
    return overlaps;
  }

  private static List<List<Integer>> conflicts(Table table) {
    return overlaps(table).stream()
        .filter(pair -> results(table, pair).get(0) != results(table, pair).get(1).intValue())
        .toList();
  }

  @Property(tries = 1_000, seed = "1957")
  void clashesAreTheConflictsUntilTheirResultsAreToldTogether(@ForAll("tables") Table table) {
    List<List<Integer>> all = new ArrayList<>();
    Clashes.each(table, (first, second) -> tell(all, List.of(first, second), new BitSet()));
    assertThat(all).isEqualTo(conflicts(table));

    List<List<Integer>> expected = new ArrayList<>();
    Set<Set<Integer>> known = new HashSet<>();
    for (List<Integer> rows : all) {
      if (known.add(Set.copyOf(results(table, rows)))) {
        expected.add(rows);
      }
    }
    List<List<Integer>> once = new ArrayList<>();
    Clashes.each(
        table,
        (first, second) -> {
          BitSet together = new BitSet();
          results(table, List.of(first, second)).forEach(together::set);
          return tell(once, List.of(first, second), together);
        });
    assertThat(once).isEqualTo(expected);
  }

  @Property(tries = 1_000, seed = "1957")
  void clashesOnlyInOneTableAreThoseWithoutThoseOfTheOther(@ForAll("tables") Table table) {
    // Every other row is wild in the first table, and as it is in the second.
    List<Row> seen = new ArrayList<>();
    for (int i = 0; i < table.rows().size(); i++) {
      Row row = table.rows().get(i);
      List<Values> wild = row.sets().stream().map(s -> Values.all(s.size())).toList();
      seen.add(i % 2 == 0 ? row : new Row(wild, row.result()));
    }
    Table wider = new Table(table.variables(), seen);
    Set<List<Integer>> expected = new HashSet<>(conflicts(wider));
    overlaps(table).forEach(expected::remove);
    List<List<Integer>> found = new ArrayList<>();
    Clashes.eachOnlyIn(
        wider, table, (first, second) -> tell(found, List.of(first, second), new BitSet()));
    assertThat(found).containsExactlyInAnyOrderElementsOf(expected);
  }

  private static BitSet tell(List<List<Integer>> told, List<Integer> rows, BitSet together) {
    told.add(rows);
    return together;
  }

  private static List<Integer> results(Table table, List<Integer> rows) {
    return rows.stream().map(row -> table.rows().get(row).result()).toList();
  }

  @Property(tries = 1_000, seed = "1957")
  void gapsAreThePointsNoRowCovers(@ForAll("tables") Table table) {
    Set<List<Integer>> uncovered = uncovered(table);
    Gaps gaps = Gaps.of(table, ENOUGH);
    assertThat(gaps.complete()).isTrue();

    Set<List<Integer>> found = new HashSet<>();
    for (Cube cube : gaps.cubes()) {
      List<List<Integer>> points = SmallTables.points(cube.sets());
      assertThat(cube.size()).isEqualTo(points.size());
      assertThat(points).contains(Arrays.stream(cube.point()).boxed().toList());
      found.addAll(points);
      assertMaximal(cube, uncovered);
    }
    assertThat(found).isEqualTo(uncovered);
    for (Cube cube : gaps.cubes()) {
      assertThat(gaps.cubes()).filteredOn(other -> other.containsAll(cube)).containsExactly(cube);
    }
    assertThat(Gaps.uncovered(table, ENOUGH)).contains(BigInteger.valueOf(uncovered.size()));
    Gaps first = Gaps.first(table, everything(table), ENOUGH);
    assertThat(first.complete()).isTrue();
    assertThat(first.cubes()).hasSize(Math.min(1, uncovered.size()));
    for (Cube cube : first.cubes()) {
      assertThat(uncovered).containsAll(SmallTables.points(cube.sets()));
    }
  }

  private static void assertMaximal(Cube cube, Set<List<Integer>> uncovered) {
    for (int v = 0; v < cube.sets().size(); v++) {
      for (int added : SmallTables.values(cube.sets().get(v).complement()).toArray()) {
        List<Values> wider = new ArrayList<>(cube.sets());
        wider.set(v, Values.only(wider.get(v).size(), added));
        assertThat(uncovered.containsAll(SmallTables.points(wider))).isFalse();
      }
    }
  }

  @Property(tries = 1_000, seed = "1957")
  void whatIsSaidWithinASmallBudgetIsTrue(
      @ForAll("tables") Table table, @ForAll @IntRange(max = 40) int budget) {
    Set<List<Integer>> uncovered = uncovered(table);
    Gaps gaps = Gaps.of(table, budget);
    assertThat(gaps.steps()).isLessThanOrEqualTo(budget);
    Set<List<Integer>> found = new HashSet<>();
    gaps.cubes().forEach(cube -> found.addAll(SmallTables.points(cube.sets())));
    assertThat(found).isSubsetOf(uncovered);
    assertThat(!gaps.complete() || found.equals(uncovered)).isTrue();
    Gaps.uncovered(table, budget).ifPresent(count -> assertThat(count).isEqualTo(uncovered.size()));

    Gaps first = Gaps.first(table, everything(table), budget);
    assertThat(first.steps()).isLessThanOrEqualTo(budget);
    first
        .cubes()
        .forEach(cube -> assertThat(uncovered).containsAll(SmallTables.points(cube.sets())));
    assertThat(first.complete() && first.cubes().isEmpty() && !uncovered.isEmpty()).isFalse();
  }

  @Provide
  Arbitrary<Table> tables() {
    return Arbitraries.randomValue(SmallTables::any);
  }

  private static List<Set<List<Integer>>> covered(Table table) {
    List<Set<List<Integer>>> covered = new ArrayList<>();
    for (Row row : table.rows()) {
      covered.add(new HashSet<>(SmallTables.points(row.sets())));
    }
    return covered;
  }

  private static Set<List<Integer>> uncovered(Table table) {
    Set<List<Integer>> uncovered = new HashSet<>(SmallTables.points(table));
    uncovered.removeIf(
        point -> table.rows().stream().anyMatch(row -> SmallTables.covers(row, point)));
    return uncovered;
  }

  private static Cube everything(Table table) {
    return new Cube(table.variables().stream().map(v -> Values.all(v.size())).toList());
  }
}
