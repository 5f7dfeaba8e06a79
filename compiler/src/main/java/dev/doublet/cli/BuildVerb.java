package dev.doublet.cli;

import dev.doublet.Build;
import dev.doublet.Compiler;
import dev.doublet.chart.BudgetText;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.report.Summary;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code build}: a proven table for every controller of a layout. */
@Command(
    name = "build",
    mixinStandardHelpOptions = true,
    description =
        "Checks a layout, and writes a table (.bin and .h, and .hex for boards with a bootloader) for"
            + " each controller and the reader beside them. Each table is read back and compared with the layout first; nothing is written"
            + " when anything is wrong.")
final class BuildVerb implements Callable<Integer> {
  private final Terminal terminal;
  private final BiFunction<String, SourceReader, Build> building;

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Option(names = "--output", paramLabel = "FOLDER", required = true, description = "where to")
  private String output = "";

  @Option(names = "--strict", description = "a warning fails the run, as an error does")
  private boolean strict;

  BuildVerb(Terminal terminal) {
    this(terminal, Compiler::build);
  }

  /** A verb that builds in some way. */
  BuildVerb(Terminal terminal, BiFunction<String, SourceReader, Build> building) {
    this.terminal = terminal;
    this.building = building;
  }

  @Override
  public Integer call() throws IOException {
    Disk disk = new Disk(terminal.folder(), List.of(path));
    Build build = building.apply(Inputs.layout(path, terminal.folder(), disk), disk);
    Compiler.Checked<LayoutFacts> checked = build.checked();
    Summary summary = Summary.of(checked.diagnostics(), 1, checked.skipped(), false);
    if (!build.refusal().isEmpty()) {
      terminal.complain(build.refusal());
      return Main.COULD_NOT_RUN;
    }
    if (build.files().isEmpty() || summary.isFailure(strict)) {
      terminal.show(summary);
      terminal.complain("nothing was written");
      return Main.FINDINGS;
    }
    List<Product> files = new ArrayList<>();
    build.files().forEach((name, bytes) -> files.add(new Product(name, bytes)));
    OutputFolder.write(terminal.folder(), output, files);
    terminal.print(BudgetText.text(checked.value().orElseThrow()));
    terminal.show(summary);
    return Main.CLEAN;
  }
}
