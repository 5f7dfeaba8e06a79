package dev.doublet.check.sequence;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Sequence;
import java.util.List;
import java.util.Optional;

/** A rulebook that cannot bring a train from its fastest aspect to a stand. */
public final class SequenceGap implements Check.OfBook {

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Optional<Aspect> stop = facts.book().mostRestrictive();
    if (stop.isEmpty()) {
      return List.of();
    }
    Sequence sequence = Sequence.of(facts.book());
    return sequence.fastest().stream()
        .filter(a -> !a.equals(stop.get()) && !sequence.reached(a).contains(stop.get()))
        .map(a -> report(sequence, a, stop.get()))
        .toList();
  }

  private Diagnostic report(Sequence sequence, Aspect from, Aspect stop) {
    List<Aspect> reached = sequence.reached(from);
    String how =
        reached.isEmpty()
            ? "no aspect may follow it"
            : "it leads only to " + Words.quoted(reached, Aspect::name);
    return finding(
            Severity.WARNING,
            from.permissionSpan(),
            Words.say(
                "no sequence of aspects brings a train from \"%s\" to \"%s\"",
                from.name(), stop.name()))
        .about(List.of(from.name(), stop.name()))
        .label(how)
        .related(stop.span(), "never announced on the way")
        .because("a crew that obeys every aspect would still meet the stop signal without warning")
        .help(
            "add an aspect that may stand after one of these and says \"then stop\", or say in \"allows\" what the next signal asks");
  }
}
