package dev.doublet.check.wording;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import java.util.List;

/** Aspects that tell a crew the same in the same words. */
public final class SharedIndication implements Check.OfBook {

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    return SharedText.of(facts.book().aspects(), Aspect::indication).stream()
        .map(this::report)
        .toList();
  }

  private Diagnostic report(SharedText shared) {
    String label = "indication " + shared.text();
    Diagnostic finding =
        finding(
                Severity.WARNING,
                shared.second().span(),
                Words.say(
                    "%s have one indication: %s",
                    Words.quoted(shared.aspects(), Aspect::name), shared.text()))
            .about(shared.names())
            .label(label)
            .word("indication", shared.text())
            .words("aspects", shared.names());
    return shared
        .places(finding, label)
        .because(
            "what tells a crew to do the same is one aspect, with one name", "49 CFR 236.23(c)")
        .help("mend one of the two, or make them one aspect, its patterns joined by \"or\"");
  }
}
