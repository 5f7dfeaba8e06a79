package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.rulebook.Rulebook;
import java.util.List;

/** A layout's rulebook none of whose aspects is known to be the most restrictive. */
public final class NoMostRestrictiveAspect implements Check.OfLayout {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Rulebook book = facts.layout().rulebook();
    if (book.mostRestrictive().isPresent()) {
      return List.of();
    }
    return List.of(
        finding(
                Severity.ERROR,
                book.span(),
                "no aspect of this rulebook is known to be the most restrictive")
            .because(
                "signals show it at power-up, on a bad command and on a bad table (common practice: to fail safe)")
            .help("give one aspect \"allows stop\", or rank the speeds that stand in no order"));
  }
}
