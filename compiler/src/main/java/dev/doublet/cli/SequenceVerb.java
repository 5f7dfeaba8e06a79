package dev.doublet.cli;

import dev.doublet.Compiler;
import dev.doublet.chart.SequenceChart;
import dev.doublet.facts.CheckOptions;
import dev.doublet.report.Summary;
import dev.doublet.rulebook.Rulebook;
import java.io.IOException;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code sequence}: which aspects may stand ahead of one another. */
@Command(
    name = "sequence",
    mixinStandardHelpOptions = true,
    description =
        "Draws a rulebook's aspect sequence chart: for each aspect, which may stand at the next signal"
            + " and at the second.")
final class SequenceVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "RULEBOOK", description = "a rulebook (.aspects)")
  private String path = "";

  SequenceVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Disk disk = new Disk(terminal.folder(), List.of(path));
    String file = Inputs.rulebook(path, terminal.folder(), disk);
    Compiler.Checked<Rulebook> checked = Compiler.checkRulebook(file, disk, CheckOptions.FINDINGS);
    Summary summary = Summary.of(checked.diagnostics(), 1, checked.skipped(), false);
    if (checked.value().isEmpty() || !checked.value().get().isWhole()) {
      terminal.show(summary);
      return Main.FINDINGS;
    }
    terminal.print(SequenceChart.of(checked.value().get()).text());
    return Main.CLEAN;
  }
}
