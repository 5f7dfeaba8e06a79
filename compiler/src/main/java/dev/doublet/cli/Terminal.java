package dev.doublet.cli;

import dev.doublet.report.Summary;
import java.io.PrintStream;
import java.nio.file.Path;

/**
 * Where a run stands and prints.
 *
 * @param out the result
 * @param err progress, and what could not be done
 * @param colour true when a person sees {@code out} on a terminal
 * @param pipe true when another program reads {@code out}, which may stop before the end
 * @param folder what paths are relative to
 */
record Terminal(PrintStream out, PrintStream err, boolean colour, boolean pipe, Path folder) {

  /** The launcher says where the output goes, as Java cannot tell reliably. */
  static Terminal of(PrintStream out, PrintStream err) {
    boolean colour = Boolean.getBoolean("doublet.terminal") && System.getenv("NO_COLOR") == null;
    return new Terminal(out, err, colour, Boolean.getBoolean("doublet.pipe"), Path.of(""));
  }

  /** Prints what was found, and gives the exit code that goes with it. */
  int show(Summary summary) {
    out.print(summary.text(colour));
    return summary.hasFindings() ? Main.FINDINGS : Main.CLEAN;
  }
}
