package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.BuildGroup;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A signal none of whose aspects is known to be more restrictive than all the others. */
public final class NoRestAspect implements Check.OfLayout {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Optional<Aspect> stop = facts.layout().rulebook().mostRestrictive();
    List<Diagnostic> found = new ArrayList<>();
    for (BuildGroup built : stop.isEmpty() ? List.<BuildGroup>of() : facts.builds()) {
      List<Aspect> shown = built.build().aspects();
      if (!shown.isEmpty() && Rulebook.mostRestrictive(shown).isEmpty()) {
        found.add(report(built, shown, stop.get()));
      }
    }
    return found;
  }

  private Diagnostic report(BuildGroup built, List<Aspect> shown, Aspect stop) {
    return finding(
            Severity.ERROR,
            built.first().span(),
            Words.say(
                "%s shows no aspect known to be more restrictive than all its others",
                built.words()))
        .about(built.names())
        .words("signals", built.names())
        .label("shows \"{shown}\"", Datum.of("shown", shown.stream().map(Aspect::name).toList()))
        .because("it would not know what to show at power-up or on a bad command")
        .help(
            advice(built, stop),
            Datum.of("form", built.build().form().name()),
            Datum.of("most-restrictive", stop.name()));
  }

  private static String advice(BuildGroup built, Aspect stop) {
    Form form = built.build().form();
    boolean shown = stop.patterns().stream().anyMatch(p -> p.form().equals(form));
    return shown
        ? "add \"{most-restrictive}\" to its aspects"
        : "write how form {form} shows \"{most-restrictive}\" and add it to its aspects, or rank the"
            + " speeds of those it has";
  }
}
