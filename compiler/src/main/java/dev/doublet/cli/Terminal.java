package dev.doublet.cli;

import java.io.PrintStream;

/**
 * Where a run prints.
 *
 * @param out the result
 * @param err progress, and what could not be done
 * @param colour true when a person sees {@code out} on a terminal
 */
record Terminal(PrintStream out, PrintStream err, boolean colour) {

  /** Colours only where a person sees them; the launcher says so, as Java cannot tell reliably. */
  static Terminal of(PrintStream out, PrintStream err) {
    boolean colour = Boolean.getBoolean("doublet.terminal") && System.getenv("NO_COLOR") == null;
    return new Terminal(out, err, colour);
  }
}
