package dev.doublet.golden;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.TextRendering;
import java.util.List;

/** Runs the compiler on a case, as the command line would. */
public final class Run {
  private Run() {}

  /** Everything that the case's root file gives. */
  public static Compiler.Checked<?> compile(Case input) {
    return input.root().endsWith(".yaml")
        ? Compiler.checkLayout(input.root(), input.reader())
        : Compiler.checkRulebook(input.root(), input.reader());
  }

  /** What is printed, with or without notes. */
  public static String check(Case input, boolean notes) {
    return new TextRendering(false)
        .draw(compile(input).diagnostics().stream().filter(d -> notes || d.isFinding()).toList());
  }

  /** Errors and warnings. */
  public static List<Diagnostic> findings(Case input) {
    return compile(input).diagnostics().stream().filter(Diagnostic::isFinding).toList();
  }
}
