package dev.doublet.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.cells.Clashes;
import dev.doublet.cells.Gaps;
import dev.doublet.cells.Row;
import dev.doublet.cells.Table;
import dev.doublet.cells.Values;
import dev.doublet.cells.Variable;
import java.io.StringReader;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.kie.dmn.api.core.DMNModel;
import org.kie.dmn.core.internal.utils.DMNRuntimeBuilder;
import org.kie.dmn.validation.DMNValidator;
import org.kie.dmn.validation.dtanalysis.InternalDMNDTAnalyser;
import org.kie.dmn.validation.dtanalysis.InternalDMNDTAnalyserFactory;
import org.kie.dmn.validation.dtanalysis.model.DTAnalysis;
import org.kie.dmn.validation.dtanalysis.model.Hyperrectangle;
import org.kie.dmn.validation.dtanalysis.model.Overlap;
import org.kie.internal.io.ResourceFactory;

/** The engine and a published analyser of decision tables find the same overlaps and gaps. */
class DecisionTableOracleTest {
  private static final BigDecimal HALF = new BigDecimal("0.5");
  private static final long ENOUGH = 1_000_000;
  private static final InternalDMNDTAnalyser ANALYSER =
      InternalDMNDTAnalyserFactory.newDMNDTAnalyser(List.of());

  @Property(tries = 200)
  void overlapsAndGapsAreTheSame(@ForAll("tables") Table table) {
    DTAnalysis analysis = analysis(table);
    assertThat(analysis.isError()).isFalse();

    Set<String> pairs = new TreeSet<>();
    for (Overlap overlap : analysis.getOverlaps()) {
      List<Integer> rules = overlap.getRules().stream().sorted().toList();
      for (int i = 0; i < rules.size(); i++) {
        for (int k = i + 1; k < rules.size(); k++) {
          pairs.add(rules.get(i) - 1 + " and " + (rules.get(k) - 1));
        }
      }
    }
    assertThat(pairs)
        .containsExactlyInAnyOrderElementsOf(
            overlaps(table));

    Gaps gaps = Gaps.of(table, ENOUGH);
    assertThat(gaps.complete()).isTrue();
    for (int[] point : points(table)) {
      boolean ours = gaps.cubes().stream().anyMatch(cube -> new Row(cube.sets(), 0).covers(point));
      boolean theirs = analysis.getGaps().stream().anyMatch(gap -> holds(gap, point));
      assertThat(ours).isEqualTo(theirs);
    }
  }

  /** Each row has a result of its own, so every two that meet clash. */
  private static List<String> overlaps(Table table) {
    List<Row> rows = new ArrayList<>();
    table.rows().forEach(row -> rows.add(new Row(row.sets(), rows.size())));
    List<String> overlaps = new ArrayList<>();
    Clashes.each(
        new Table(table.variables(), rows),
        (first, second) -> {
          overlaps.add(first + " and " + second);
          return new BitSet();
        });
    return overlaps;
  }

  private static DTAnalysis analysis(Table table) {
    DMNModel model =
        DMNRuntimeBuilder.fromDefaults()
            .buildConfiguration()
            .fromResources(
                List.of(
                    ResourceFactory.newReaderResource(
                        new StringReader(DecisionTableText.of(table)))))
            .getOrElseThrow(IllegalStateException::new)
            .getModels()
            .get(0);
    List<DTAnalysis> all =
        ANALYSER.analyse(model, Set.of(DMNValidator.Validation.ANALYZE_DECISION_TABLE));
    assertThat(all).hasSize(1);
    return all.get(0);
  }

  /** Tells whether a gap holds the middle of a value's stretch for each variable. */
  private static boolean holds(Hyperrectangle gap, int[] point) {
    return IntStream.range(0, point.length)
        .allMatch(
            v ->
                v >= gap.getEdges().size()
                    || gap.getEdges().get(v).asRangeIncludes(new BigDecimal(point[v]).add(HALF)));
  }

  private static List<int[]> points(Table table) {
    List<int[]> points = new ArrayList<>(List.of(new int[table.variables().size()]));
    for (int v = 0; v < table.variables().size(); v++) {
      for (int[] point : List.copyOf(points)) {
        for (int x = 1; x < table.variables().get(v).size(); x++) {
          int[] other = point.clone();
          other[v] = x;
          points.add(other);
        }
      }
    }
    return points;
  }

  @Provide
  Arbitrary<Table> tables() {
    return Arbitraries.randomValue(DecisionTableOracleTest::table);
  }

  private static Table table(Random random) {
    List<Variable> variables = new ArrayList<>();
    for (int v = 0, count = 1 + random.nextInt(3); v < count; v++) {
      variables.add(new Variable("v" + v, 2 + random.nextInt(3)));
    }
    List<Row> rows = new ArrayList<>();
    for (int r = 0, count = 1 + random.nextInt(6); r < count; r++) {
      List<Values> sets = new ArrayList<>();
      for (Variable variable : variables) {
        int[] some =
            IntStream.range(0, variable.size()).filter(x -> random.nextBoolean()).toArray();
        boolean wild = some.length == 0 || random.nextInt(3) == 0;
        sets.add(wild ? Values.all(variable.size()) : Values.of(variable.size(), some));
      }
      rows.add(new Row(sets, random.nextInt(2)));
    }
    return new Table(variables, rows);
  }
}
