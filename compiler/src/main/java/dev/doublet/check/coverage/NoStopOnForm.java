package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Mount;
import dev.doublet.rulebook.Movement;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
    Map<List<Aspect>, List<Form>> alike = new LinkedHashMap<>();
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
        alike.computeIfAbsent(shown, s -> new ArrayList<>()).add(form);
      }
    }
    return alike.entrySet().stream()
        .map(forms -> report(forms.getValue(), stop.get(), forms.getKey()))
        .toList();
  }

  /** One finding for all forms that show the same. */
  private Diagnostic report(List<Form> forms, Aspect stop, List<Aspect> shown) {
    List<String> names = forms.stream().map(Form::name).toList();
    String these = Words.plural(forms.size(), "form") + " " + Words.list(names);
    return finding(
            Severity.WARNING,
            forms.get(0).span(),
            Words.say("no pattern shows \"%s\" on %s", stop.name(), these))
        .about(Words.both(List.of(stop.name()), names))
        .label("shows \"{shown}\"", Datum.of("shown", shown.stream().map(Aspect::name).toList()))
        .related(stop.span(), "the most restrictive aspect")
        .word("aspect", stop.name())
        .words("forms", names)
        .alsoAt(forms.stream().skip(1).map(f -> new Label(f.span(), "and here")).toList())
        .because(
            "a signal shows it at power-up and when nothing can be made out of it (common practice)")
        .help(
            Words.say(
                "write how %s %s it, or, if such signals never do: %s",
                these, forms.size() == 1 ? "shows" : "show", without(forms)));
  }

  /** How forms say that they never stop a train. */
  private static String without(List<Form> forms) {
    Form form = forms.get(0);
    return forms.size() > 1
        ? "\"without stop\" after each of them"
        : Words.say(
            "form %s %s{ %s } without stop",
            form.name(),
            form.mount() == Mount.IN_LINE ? "" : form.mount().words() + " ",
            String.join(", ", form.places()));
  }
}
