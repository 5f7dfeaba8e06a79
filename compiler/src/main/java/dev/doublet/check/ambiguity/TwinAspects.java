package dev.doublet.check.ambiguity;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.BookFacts.Look;
import dev.doublet.facts.PatternTable;
import java.util.ArrayList;
import java.util.List;

/** Aspects that one picture means. */
public final class TwinAspects implements Check.OfBook {
  private final long budget;

  /** Looks as long as anybody waits. */
  public TwinAspects() {
    this(Twins.BUDGET);
  }

  /**
   * Looks only so long.
   *
   * @param budget in steps of the engine for each look
   */
  TwinAspects(long budget) {
    this.budget = budget;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    TwinFindings findings = new TwinFindings(this, Severity.ERROR, "look alike");
    List<Diagnostic> found = new ArrayList<>();
    for (Look look : facts.looks()) {
      Twins twins = Twins.of(look, PatternTable.of(facts, look), budget);
      found.addAll(findings.of(look, twins, TwinAspects::reasoned));
    }
    return found;
  }

  private static Diagnostic reasoned(Diagnostic finding, Twins.Picture twins) {
    boolean two = twins.shown().size() == 2;
    boolean plain = twins.shown().stream().allMatch(s -> s.pattern().plates().isEmpty());
    return finding
        .because(
            Words.say("one picture has one name; a crew cannot obey %s", two ? "both" : "several"),
            "49 CFR 236.23(c)")
        .help(advice(two, plain));
  }

  private static String advice(boolean two, boolean plain) {
    if (plain) {
      return two
          ? "change one of the two patterns, or say which plate a signal carries for one of them (\"with … plate\")"
          : "change all of the patterns but one, or say which plates tell them apart (\"with … plate\")";
    }
    return two
        ? "change one of the two patterns, or write one that names the plates of both"
        : "change all of the patterns but one, or write one that names the plates of all";
  }
}
