package dev.doublet.cells;

import java.util.List;
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
 * Times both questions on split-tree tables of 24 variables with 50 rows taken away, in 1 GB of
 * memory. One measurement is one question asked once.
 *
 * <pre>{@code
 * mvn -q test-compile dependency:build-classpath -Dmdep.outputFile=target/classpath.txt -pl compiler -am
 * java -cp compiler/target/test-classes:compiler/target/classes:$(cat compiler/target/classpath.txt) \
 *     dev.doublet.cells.CellsBenchmark
 * }</pre>
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 2)
@Measurement(iterations = 5)
@Fork(value = 1, jvmArgs = "-Xmx1g")
public class CellsBenchmark {
  private static final int DROPPED = 50;

  /** How many rows the table has before some are taken away. */
  @Param({"10000", "100000"})
  public int rows;

  private Table table;

  /** Runs all benchmarks of this class. */
  public static void main(String[] arguments) throws RunnerException {
    new Runner(new OptionsBuilder().include(CellsBenchmark.class.getName()).build()).run();
  }

  /** Makes the table; the same one each time. */
  @Setup
  public void cutTheSpace() {
    Random random = new Random(24);
    List<Variable> variables = SplitTree.variables(24, random);
    table = new Table(variables, SplitTree.rows(variables, rows, random).subList(DROPPED, rows));
  }

  /** Which two rows meet: none. */
  @Benchmark
  public List<List<Integer>> overlaps() {
    return Overlaps.of(table);
  }

  /** Which points no row covers: the rows taken away. */
  @Benchmark
  public Gaps gaps() {
    return Gaps.of(table, 1_000_000_000);
  }
}
