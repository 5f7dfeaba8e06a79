package dev.doublet.format;

import dev.doublet.bench.GeneratedLayout;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.source.SourceFile;
import dev.doublet.syntax.AspectsSyntax;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.YamlNode;
import dev.doublet.syntax.YamlReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/**
 * Times the form of texts of a million characters, so that texts a second are megabytes a second,
 * beside reading them: in their form, and with every blank of their lines twice.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 4, time = 5)
@Measurement(iterations = 5, time = 4)
@Fork(
    value = 1,
    jvmArgs = {"-Xmx1g", "-XX:+UseSerialGC"})
public class FormatBenchmark {
  private static final int SIZE = 1_000_000;

  private SourceFile book;
  private SourceFile roughBook;
  private SourceFile layout;
  private SourceFile roughLayout;

  /** Prints the figures of all. */
  public static void main(String[] arguments) throws RunnerException {
    new Runner(new OptionsBuilder().include(FormatBenchmark.class.getSimpleName()).build()).run();
  }

  /** Makes the texts of the longest book that we have, and of a layout of many signals. */
  @Setup
  public void write() throws IOException {
    String one = Files.readString(Path.of(System.getProperty("book", "rulebooks/canada.aspects")));
    String all = one.repeat(SIZE / one.length());
    book = new SourceFile("book.aspects", all);
    roughBook = new SourceFile("book.aspects", all.replace(" ", "  "));
    String signals = GeneratedLayout.layout(SIZE / 40);
    layout = new SourceFile("layout.yaml", signals);
    roughLayout = new SourceFile("layout.yaml", signals.replace(": ", ":  "));
  }

  /** For comparison: a book read into a tree. */
  @Benchmark
  public Outcome<Tree> bookRead() {
    return AspectsSyntax.parse(book);
  }

  /** A book that is in its form. */
  @Benchmark
  public Outcome<List<Spacing>> bookInItsForm() {
    return Format.changes(Format.Language.ASPECTS, book);
  }

  /** A book that is not, with what comes of it read again. */
  @Benchmark
  public Outcome<List<Spacing>> roughBook() {
    return Format.changes(Format.Language.ASPECTS, roughBook);
  }

  /** For comparison: a layout read into a tree. */
  @Benchmark
  public Outcome<YamlNode> layoutRead() {
    return YamlReader.read(layout);
  }

  /** A layout that is in its form. */
  @Benchmark
  public Outcome<List<Spacing>> layoutInItsForm() {
    return Format.changes(Format.Language.LAYOUT, layout);
  }

  /** A layout that is not, with what comes of it read again. */
  @Benchmark
  public Outcome<List<Spacing>> roughLayout() {
    return Format.changes(Format.Language.LAYOUT, roughLayout);
  }
}
