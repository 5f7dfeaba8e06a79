package dev.doublet.check.wording;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Aspects that bear one rule number. */
public final class SharedRule implements Check.OfBook {

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Map<String, List<Aspect>> by = new LinkedHashMap<>();
    facts.book().aspects().stream()
        .filter(a -> !a.rule().isBlank())
        .sorted(Comparator.comparing(Aspect::span))
        .forEach(a -> by.computeIfAbsent(a.rule(), r -> new ArrayList<>()).add(a));
    List<Diagnostic> found = new ArrayList<>();
    by.forEach(
        (said, its) -> {
          if (its.size() > 1) {
            found.add(report(said, its));
          }
        });
    return found;
  }

  private Diagnostic report(String said, List<Aspect> aspects) {
    Aspect second = aspects.get(1);
    Diagnostic finding =
        finding(
                Severity.WARNING,
                second.span(),
                Words.say("%s have one rule: %s", Words.quoted(aspects, Aspect::name), said))
            .about(aspects.stream().map(Aspect::name).toList())
            .label("rule " + said)
            .word("rule", said)
            .words("aspects", aspects.stream().map(Aspect::name).toList());
    for (Aspect other : aspects) {
      if (!other.equals(second)) {
        finding = finding.related(other.span(), "rule " + said);
      }
    }
    return finding
        .because("a rule is cited by its number, and one number says one thing (common practice)")
        .help("give each the number that the book has, or say that they are one aspect");
  }
}
