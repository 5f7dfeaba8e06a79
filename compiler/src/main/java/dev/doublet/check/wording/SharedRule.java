package dev.doublet.check.wording;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import java.util.List;

/** Aspects that bear one rule number. */
public final class SharedRule implements Check.OfBook {

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    return SharedText.of(facts.book().aspects(), Aspect::rule).stream().map(this::report).toList();
  }

  private Diagnostic report(SharedText shared) {
    String label = "rule " + shared.text();
    Diagnostic finding =
        finding(
                Severity.WARNING,
                shared.second().span(),
                Words.say(
                    "%s have one rule: %s",
                    Words.quoted(shared.aspects(), Aspect::name), shared.text()))
            .about(shared.names())
            .label(label)
            .word("rule", shared.text())
            .words("aspects", shared.names());
    return shared
        .places(finding, label)
        .because("a rule is cited by its number, and one number says one thing (common practice)")
        .help("give each the number that the book has, or say that they are one aspect");
  }
}
