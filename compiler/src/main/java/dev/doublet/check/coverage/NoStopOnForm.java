package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Mount;
import dev.doublet.rulebook.Movement;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** A form on which aspects are shown, and Stop is not. */
public final class NoStopOnForm implements Check.OfBook {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Rulebook book = facts.book();
    Optional<Aspect> stop =
        book.mostRestrictive().filter(a -> a.permission().here() instanceof Movement.Stop);
    List<Diagnostic> found = new ArrayList<>();
    for (Form form : stop.isPresent() ? book.forms() : List.<Form>of()) {
      List<Aspect> shown =
          book.aspects().stream().filter(a -> !a.patternsOn(form).isEmpty()).toList();
      boolean stops = shown.stream().anyMatch(a -> a.permission().here() instanceof Movement.Stop);
      Set<Boolean> plated =
          shown.stream()
              .flatMap(a -> a.patternsOn(form).stream())
              .map(p -> p.plates().isEmpty())
              .collect(Collectors.toSet());
      if (!form.withoutStop() && plated.contains(true) && !stops) {
        found.add(report(form, stop.get(), shown));
      }
    }
    return found;
  }

  private Diagnostic report(Form form, Aspect stop, List<Aspect> shown) {
    return finding(
            Severity.WARNING,
            form.span(),
            Words.say("no pattern shows \"%s\" on form %s", stop.name(), form.name()))
        .about(List.of(stop.name(), form.name()))
        .label("shows \"{shown}\"", Datum.of("shown", shown.stream().map(Aspect::name).toList()))
        .related(stop.span(), "the most restrictive aspect")
        .word("aspect", stop.name())
        .word("form", form.name())
        .because(
            "a signal shows it at power-up and when nothing can be made out of it (common practice)")
        .help(
            Words.say(
                "write how form %s shows it, or, if such signals never do: form %s %s{ %s } without stop",
                form.name(),
                form.name(),
                form.mount() == Mount.IN_LINE ? "" : form.mount().words() + " ",
                String.join(", ", form.places())));
  }
}
