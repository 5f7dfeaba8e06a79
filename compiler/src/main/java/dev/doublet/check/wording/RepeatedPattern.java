package dev.doublet.check.wording;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Alike;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Pattern;
import java.util.ArrayList;
import java.util.List;

/** A pattern of an aspect that another of the same aspect says already. */
public final class RepeatedPattern implements Check.OfBook {

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Aspect aspect : facts.book().aspects()) {
      List<Pattern> patterns = aspect.patterns();
      for (int i = 1; i < patterns.size(); i++) {
        Pattern later = patterns.get(i);
        patterns.subList(0, i).stream()
            .filter(p -> !p.span().equals(later.span()))
            .filter(p -> p.saysAllOf(later))
            .findFirst()
            .ifPresent(earlier -> found.add(report(aspect, earlier, later)));
      }
    }
    return Alike.drawnTogether(found);
  }

  private Diagnostic report(Aspect aspect, Pattern earlier, Pattern later) {
    return finding(
            Severity.WARNING,
            later.span(),
            Words.say(
                "\"%s\" is shown twice in one way on form %s", aspect.name(), later.form().name()))
        .about(List.of(aspect.name(), later.form().name()))
        .label("again")
        .related(
            earlier.span(), earlier.words().equals(later.words()) ? "first" : "says it already")
        .word("aspect", aspect.name())
        .word("form", later.form().name())
        .fact("on form " + later.form().name(), later.words())
        .because("once is enough, so another picture or another aspect may be meant")
        .help("remove one of the two, or write the one that is meant");
  }
}
