package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.BuildGroup;
import dev.doublet.facts.Showing;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading;
import java.util.ArrayList;
import java.util.List;

/** An aspect asked of a signal on whose form, with its plates, no pattern shows it. */
public final class MissingPattern implements Check.OfLayout {

  @Override
  public Tier tier() {
    return Tier.STRUCTURE;
  }

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (BuildGroup built : facts.builds()) {
      if (built.first().units().stream().allMatch(u -> u.kind().states().isEmpty())) {
        found.add(report(built));
      }
      for (Aspect aspect : built.build().aspects()) {
        if (Showing.holding(facts.layout().rulebook(), built.build(), aspect).isEmpty()) {
          found.add(report(facts, built, aspect));
        }
      }
    }
    return found;
  }

  /** A signal for which nothing was asked and nothing is there. */
  private Diagnostic report(BuildGroup built) {
    String form = built.build().form().name();
    return finding(
            Severity.ERROR,
            built.first().span(),
            Words.say(
                "%s can show nothing: no aspect has a pattern on form %s%s",
                built.words(), form, plates(built.build())))
        .about(built.names())
        .label("form " + form)
        .related(built.build().form().span(), "has no patterns that such a signal could show")
        .words("signals", built.names())
        .word("form", form)
        .words("plates", built.build().plates())
        .because("a signal is there to show aspects")
        .help(
            "write patterns (\"{write}\"), or name another form",
            Datum.of("write", "on " + form + " show …"));
  }

  private Diagnostic report(LayoutFacts facts, BuildGroup built, Aspect aspect) {
    Signal.Build build = built.build();
    List<Pattern> outdone = Showing.carried(build, aspect);
    Diagnostic finding =
        finding(
                Severity.ERROR,
                built.first().span(),
                Words.say(
                    "%s is to show \"%s\", which has no pattern on form %s%s",
                    built.words(), aspect.name(), build.form().name(), plates(build)))
            .about(Words.both(built.names(), List.of(aspect.name())))
            .label("form " + build.form().name())
            .words("signals", built.names())
            .word("aspect", aspect.name())
            .word("form", build.form().name())
            .words("plates", build.plates())
            .because("the rulebook does not say how such a signal shows it");
    if (!outdone.isEmpty()) {
      Reading.Reads other =
          Reading.of(
                  facts.layout().rulebook(), build.form(), build.plates(), outdone.get(0).shown())
              .get(0);
      return finding
          .related(outdone.get(0).span(), "this would show it, but")
          .related(
              other.pattern().span(),
              "with the plate it is \"{other}\"",
              Datum.of("other", other.aspect().name()))
          .fact("picture", Display.over(outdone.get(0).shown()))
          .help("take the plate off, or the aspect off this signal's list");
    }
    List<String> forms =
        aspect.patterns().stream().map(p -> p.form().name()).distinct().sorted().toList();
    return finding
        .related(
            aspect.span(),
            forms.isEmpty() ? "has no pattern at all" : "stands on " + Words.list(forms))
        .help(
            "write the pattern (\"{write}\"), or take the aspect off this signal's list",
            Datum.of("write", "on " + build.form().name() + " show …"));
  }

  private static String plates(Signal.Build build) {
    return build.plates().isEmpty()
        ? ""
        : Words.say(
            " with %s %s",
            Words.plural(build.plates().size(), "plate"), Words.list(build.plates()));
  }
}
