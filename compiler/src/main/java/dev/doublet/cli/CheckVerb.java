package dev.doublet.cli;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.Asked;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.report.Summary;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code check}: what is wrong with rulebooks and layouts. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    description =
        "Says what is wrong with rulebooks (.aspects) and layouts (.yaml). In a folder these are the"
            + " rulebooks, and the files whose names end in layout.yaml.")
final class CheckVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "FILE", arity = "1..*", description = "a rulebook, a layout or a folder")
  private List<String> paths = new ArrayList<>();

  @Option(names = "--notes", description = "show notes too")
  private boolean notes;

  @Option(
      names = "--faults",
      paramLabel = "N",
      description = "1 (as usual): single faults; 2: also every two faults of a signal at once")
  private String faults = "1";

  @Option(names = "--strict", description = "a warning fails the run, as an error does")
  private boolean strict;

  CheckVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    if (!faults.equals("1") && !faults.equals("2")) {
      terminal.complain("--faults takes 1 or 2, not \"" + faults + "\"");
      return Main.COULD_NOT_RUN;
    }
    Asked asked = new Asked(notes, Integer.parseInt(faults));
    Disk disk = new Disk(terminal.folder(), paths);
    List<Diagnostic> all = new ArrayList<>();
    int skipped = 0;
    Inputs inputs = Inputs.find(paths, terminal.folder(), disk);
    for (String path : inputs.files()) {
      Compiler.Checked<?> checked =
          LayoutResolver.isLayout(path)
              ? Compiler.checkLayout(path, disk, asked)
              : Compiler.checkRulebook(path, disk, asked);
      all.addAll(checked.diagnostics());
      skipped = Math.max(skipped, checked.skipped());
    }
    Summary summary = Summary.of(all, inputs.files().size(), skipped, notes);
    terminal.show(summary);
    return summary.isFailure(strict) ? Main.FINDINGS : Main.CLEAN;
  }
}
