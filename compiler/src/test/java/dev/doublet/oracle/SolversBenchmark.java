package dev.doublet.oracle;

import dev.doublet.cells.Cube;
import dev.doublet.cells.Gaps;
import dev.doublet.cells.Overlaps;
import dev.doublet.cells.Row;
import dev.doublet.cells.SplitTree;
import dev.doublet.cells.Table;
import dev.doublet.cells.Values;
import dev.doublet.cells.Variable;
import java.math.BigInteger;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/**
 * Times the engine beside a SAT solver and decision diagrams: both questions of one table of a
 * thousand rows, some taken away and some repeated, each from the table to the answer. The engine
 * and the SAT solver list all gaps, the engine and the diagrams count their points. Diagrams over
 * 24 variables do not end, and are left out. One should compare medians or least times: the mean
 * says more of what else the machine did.
 *
 * <pre>{@code
 * mvn -q test-compile dependency:build-classpath -Dmdep.outputFile=target/classpath.txt -pl compiler -am
 * java -cp compiler/target/test-classes:compiler/target/classes:$(cat compiler/target/classpath.txt) \
 *     dev.doublet.oracle.SolversBenchmark
 * }</pre>
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 2, time = 3)
@Measurement(iterations = 3, time = 3)
@Fork(value = 1, jvmArgs = "-Xmx2g")
public class SolversBenchmark {
  private static final int PATTERNS = 1_000;
  private static final int PLANTED = 20;
  private static final long ENOUGH = 100_000_000;

  /** How many variables the table has. */
  @Param({"8", "24"})
  public int variables;

  private Table table;

  /** Runs all benchmarks of this class. */
  public static void main(String[] arguments) throws RunnerException {
    String name = SolversBenchmark.class.getName();
    new Runner(new OptionsBuilder().include(name).param("variables", "8").build()).run();
    new Runner(new OptionsBuilder().include(name).exclude("Bdd").param("variables", "24").build())
        .run();
  }

  /** Makes the table; the same one each time. */
  @Setup
  public void cutTheSpace() {
    Random random = new Random(8);
    List<Variable> sizes = SplitTree.variables(variables, random);
    List<Row> rows = SplitTree.rows(sizes, PATTERNS, random);
    for (int r = 0; r < PLANTED; r++) {
      rows.set(r, rows.get(PATTERNS - 1 - r));
    }
    table = new Table(sizes, rows);
  }

  /** Overlaps by the engine. */
  @Benchmark
  public List<List<Integer>> overlapsOurs() {
    return Overlaps.of(table);
  }

  /** Overlaps by the SAT solver. */
  @Benchmark
  public List<List<Integer>> overlapsSat() {
    return new SatTable(table).overlaps();
  }

  /** Overlaps by decision diagrams. */
  @Benchmark
  public List<List<Integer>> overlapsBdd() {
    return new BddTable(table).overlaps();
  }

  /** Gaps by the engine, all of them. */
  @Benchmark
  public Gaps gapsOurs() {
    return Gaps.of(table, ENOUGH);
  }

  /** The first gap by the engine. */
  @Benchmark
  public Gaps oneGapOurs() {
    Cube all = new Cube(table.variables().stream().map(v -> Values.all(v.size())).toList());
    return Gaps.first(table, all, ENOUGH);
  }

  /** Points without a row, counted by the engine. */
  @Benchmark
  public Optional<BigInteger> volumeOurs() {
    return Gaps.uncovered(table, ENOUGH);
  }

  /** Gaps by the SAT solver, all of them. */
  @Benchmark
  public List<Cube> gapsSat() {
    return new SatTable(table).gaps();
  }

  /** The first gap by the SAT solver. */
  @Benchmark
  public Optional<int[]> oneGapSat() {
    return new SatTable(table).gap();
  }

  /** Points without a row, counted by decision diagrams. */
  @Benchmark
  public BigInteger volumeBdd() {
    return new BddTable(table).volume();
  }
}
