package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.BuildGroup;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A signal that cannot show the most restrictive aspect of its rulebook. */
public final class NoStop implements Check.OfLayout {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Rulebook book = facts.layout().rulebook();
    Optional<Aspect> stop = book.mostRestrictive();
    List<Diagnostic> found = new ArrayList<>();
    for (BuildGroup built : stop.isEmpty() ? List.<BuildGroup>of() : facts.builds()) {
      List<Aspect> shown = built.build().aspects();
      if (Rulebook.mostRestrictive(shown).isPresent()
          && !shown.contains(stop.get())
          && !mayLackStop(book, built)) {
        found.add(report(built, shown, stop.get()));
      }
    }
    return found;
  }

  private Diagnostic report(BuildGroup built, List<Aspect> shown, Aspect stop) {
    return finding(
            Severity.WARNING,
            built.first().span(),
            Words.say(
                "%s cannot show \"%s\", the most restrictive aspect of the book",
                built.words(), stop.name()))
        .about(Words.both(built.names(), List.of(stop.name())))
        .words("signals", built.names())
        .word("stop", stop.name())
        .label("shows \"{shown}\"", Datum.of("shown", shown.stream().map(Aspect::name).toList()))
        .because(
            "a signal shows it at power-up, on a bad command and on a bad table (common practice: to fail safe)")
        .help(
            Words.say(
                "add it to the signal's aspects; or, if such signals never show it, write \"without stop\" after form %s in the rulebook, or after the plate they carry",
                built.build().form().name()));
  }

  private static boolean mayLackStop(Rulebook book, BuildGroup built) {
    return built.build().form().withoutStop()
        || book.plates().stream()
            .anyMatch(p -> p.withoutStop() && built.build().plates().contains(p.name()));
  }
}
