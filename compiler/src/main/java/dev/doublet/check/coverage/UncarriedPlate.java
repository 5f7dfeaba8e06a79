package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.BuildGroup;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Pattern;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** An aspect that signals of a layout would show if one of them carried its plates. */
public final class UncarriedPlate implements Check.OfLayout {

  @Override
  public boolean givesOnlyNotes() {
    return true;
  }

  @Override
  public Needs needs() {
    return Needs.LAYOUT;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Map<List<String>, List<Aspect>> lacking = new LinkedHashMap<>();
    for (Aspect aspect : facts.layout().rulebook().aspects()) {
      List<Pattern> there =
          aspect.patterns().stream()
              .filter(p -> facts.builds().stream().anyMatch(b -> b.build().form().equals(p.form())))
              .toList();
      boolean carried =
          there.stream()
              .anyMatch(p -> facts.builds().stream().anyMatch(b -> carries(b.build(), p)));
      if (!there.isEmpty() && !carried) {
        lacking.computeIfAbsent(there.get(0).plates(), p -> new ArrayList<>()).add(aspect);
      }
    }
    List<Diagnostic> found = new ArrayList<>();
    lacking.forEach((plates, aspects) -> found.add(report(facts, plates, aspects)));
    return found;
  }

  private static boolean carries(Signal.Build build, Pattern pattern) {
    return build.form().equals(pattern.form()) && build.plates().containsAll(pattern.plates());
  }

  private Diagnostic report(LayoutFacts facts, List<String> plates, List<Aspect> aspects) {
    BuildGroup first =
        facts.builds().stream()
            .filter(b -> !aspects.get(0).patternsOn(b.build().form()).isEmpty())
            .findFirst()
            .orElseThrow();
    String with = Words.list(plates) + " " + Words.plural(plates.size(), "plate");
    return finding(
            Severity.NOTE,
            first.first().span(),
            Words.say(
                "no signal can show %s: none of such a form carries the %s",
                Words.quoted(aspects, Aspect::name), with))
        .label("form " + first.build().form().name() + ", without it")
        .related(aspects.get(0).span(), "shown with the " + with)
        .words("aspects", aspects.stream().map(Aspect::name).toList())
        .words("plates", plates)
        .because("a plate that was forgotten makes a signal mean something else (common practice)")
        .help(
            "nothing, if no signal is to show it; otherwise write the plate at the signal that does");
  }
}
