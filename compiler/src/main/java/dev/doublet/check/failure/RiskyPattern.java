package dev.doublet.check.failure;

import dev.doublet.check.BookFacts;
import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import java.util.List;

/** A pattern that one failed lamp, flasher or plate turns into a less restrictive aspect. */
public final class RiskyPattern implements Check.OfBook {

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Hazard> hazards = Hazard.of(Site.of(facts.book()));
    // A book may be a published one, which nobody here can change, so nothing is an error.
    return new Report(this, facts.book()).of(hazards, hazard -> Severity.WARNING);
  }
}
