package dev.doublet.golden;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Controller;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * What Doublet says of everything in {@code rulebooks/} and {@code examples/}, and how large the
 * tables are, as a committed file: a change shows its effect in the diff. {@code
 * -Ddoublet.update=true} writes it anew.
 */
class CorpusTest {
  private static final Path ROOT = Path.of("..");
  private static final Path REPORT = Path.of("src/test/resources/corpus.txt");

  @Test
  void the_report_of_the_corpus_is_in_step() throws IOException {
    StringBuilder report = new StringBuilder();
    for (String path : corpus()) {
      if (path.endsWith(".yaml")) {
        Compiler.Checked<LayoutFacts> checked =
            Compiler.checkLayout(path, CorpusTest::read, CheckOptions.ALL);
        say(report, path, checked.diagnostics());
        checked.value().ifPresent(facts -> sizes(report, facts));
      } else if (Files.readString(ROOT.resolve(path)).contains("\nrulebook \"")) {
        say(
            report,
            path,
            Compiler.checkRulebook(path, CorpusTest::read, CheckOptions.ALL).diagnostics());
      }
    }
    if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
      Files.writeString(REPORT, report);
    }
    assertThat(report.toString()).isEqualTo(Files.readString(REPORT));
  }

  private static void say(StringBuilder report, String path, List<Diagnostic> diagnostics) {
    Map<String, Long> counts =
        diagnostics.stream()
            .collect(
                Collectors.groupingBy(
                    d -> d.severity().word() + " " + d.name(),
                    TreeMap::new,
                    Collectors.counting()));
    report.append(path).append('\n');
    counts.forEach((name, count) -> report.append("  ").append(count + " " + name + "\n"));
  }

  private static void sizes(StringBuilder report, LayoutFacts facts) {
    for (Controller controller : facts.layout().controllers()) {
      report.append("  table ").append(controller.name());
      report.append(": ").append(controller.units().size()).append(" units, ");
      report.append(facts.needs(controller).flash()).append(" bytes\n");
    }
  }

  private static List<String> corpus() throws IOException {
    try (Stream<Path> rulebooks = Files.walk(ROOT.resolve("rulebooks"));
        Stream<Path> examples = Files.walk(ROOT.resolve("examples"))) {
      return Stream.concat(rulebooks, examples)
          .map(p -> ROOT.relativize(p).toString().replace('\\', '/'))
          .filter(p -> p.endsWith(".aspects") || p.endsWith("layout.yaml"))
          .sorted()
          .toList();
    }
  }

  private static SourceFile read(String path) throws SourceReader.Unreadable {
    try {
      return new SourceFile(path, Files.readString(ROOT.resolve(path)));
    } catch (IOException e) {
      throw new SourceReader.Unreadable("there is no such file");
    }
  }
}
