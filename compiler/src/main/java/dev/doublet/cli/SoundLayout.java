package dev.doublet.cli;

import dev.doublet.Compiler;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.report.Summary;
import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** Reads layouts for verbs that report on sound ones only. */
final class SoundLayout {
  private SoundLayout() {}

  /** The layout with its facts; empty, once everything found was printed, when it has errors. */
  static Optional<LayoutFacts> read(String path, Terminal terminal) throws IOException {
    Disk disk = new Disk(terminal.folder(), List.of(path));
    String file = Inputs.layout(path, terminal.folder(), disk);
    Compiler.Checked<LayoutFacts> checked = Compiler.checkLayout(file, disk, CheckOptions.FINDINGS);
    Summary summary = Summary.of(checked.diagnostics(), 1, checked.skipped(), false);
    if (summary.hasErrors() || checked.value().isEmpty()) {
      terminal.show(summary);
      return Optional.empty();
    }
    return checked.value();
  }
}
