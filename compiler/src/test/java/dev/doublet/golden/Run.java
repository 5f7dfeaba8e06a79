package dev.doublet.golden;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
import dev.doublet.report.TextRendering;
import java.util.List;
import java.util.function.Predicate;

/** Runs the compiler on a case, as the command line would. */
public final class Run {
  private Run() {}

  /** Everything that the case's root file gives. */
  public static Compiler.Checked<?> compile(Case input) {
    return compile(input, CheckOptions.ALL);
  }

  /** The same when more or less is asked of the checks. */
  public static Compiler.Checked<?> compile(Case input, CheckOptions asked) {
    return input.root().endsWith(".yaml")
        ? Compiler.checkLayout(input.root(), input.reader(), asked)
        : Compiler.checkRulebook(input.root(), input.reader(), asked);
  }

  /** What is printed, with or without notes. */
  public static String check(Case input, boolean notes) {
    return check(input, d -> notes || d.isFinding());
  }

  /** What is printed of some diagnostics. */
  public static String check(Case input, Predicate<Diagnostic> which) {
    return check(input, CheckOptions.ALL, which);
  }

  /** The same when more or less is asked of the checks. */
  public static String check(Case input, CheckOptions asked, Predicate<Diagnostic> which) {
    return new TextRendering(false)
        .draw(compile(input, asked).diagnostics().stream().filter(which).toList());
  }

  /** Errors and warnings. */
  public static List<Diagnostic> findings(Case input) {
    return compile(input).diagnostics().stream().filter(Diagnostic::isFinding).toList();
  }
}
