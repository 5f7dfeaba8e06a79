package dev.doublet.check.wording;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** An aspect that had the name which another still has. */
public final class EarlierNameInUse implements Check.OfBook {
  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    Map<String, Aspect> declared = new HashMap<>();
    facts.book().aspects().forEach(a -> declared.put(a.name(), a));
    for (Aspect aspect : facts.book().aspects()) {
      for (String name : aspect.was()) {
        Aspect other = declared.get(name);
        // Aspects that exchanged their names all say so.
        if (other != null && other.was().isEmpty()) {
          found.add(report(aspect, other));
        }
      }
    }
    return found;
  }

  private Diagnostic report(Aspect aspect, Aspect other) {
    return finding(
            Severity.WARNING,
            aspect.span(),
            Words.say(
                "\"%s\" was \"%s\", but another aspect still has that name",
                aspect.name(), other.name()))
        .label("was \"{was}\"", Datum.of("was", other.name()))
        .related(other.span(), Words.say("\"%s\"", other.name()))
        .about(List.of(aspect.name(), other.name()))
        .because("changes of an aspect are told of the one aspect that took its place")
        .help(
            Words.say(
                "remove the line; or, if \"%s\" had another name then, say there which",
                other.name()));
  }
}
