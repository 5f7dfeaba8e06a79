package dev.doublet.check.failure;

import dev.doublet.check.Check;
import dev.doublet.check.LayoutFacts;
import dev.doublet.check.Words;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** How many faults were tried on a layout's signals, and what came of them. */
public final class FaultSummary implements Check.OfLayout {

  @Override
  public boolean givesOnlyNotes() {
    return true;
  }

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Site> sites = Site.of(facts);
    if (sites.isEmpty()) {
      return List.of();
    }
    List<List<Case>> cases = sites.stream().map(Site::cases).toList();
    int all = cases.stream().mapToInt(List::size).sum();
    Diagnostic said =
        finding(
            Severity.NOTE,
            facts.layout().span(),
            Words.say(
                "%s tried on %s of signal",
                Words.count(all, "single fault"), Words.count(sites.size(), "kind")));
    for (int i = 0; i < sites.size(); i++) {
      said = said.fact(sites.get(i).words(), results(cases.get(i)));
    }
    return List.of(
        said.fact(
                "not tried",
                "a break after which LEDs keep their last picture, on " + chains(facts))
            .because(
                "a fault must not show a less restrictive aspect than intended (49 CFR 236.23(f))")
            .help("nothing; what permits more is a finding of its own, or covered"));
  }

  private static String results(List<Case> cases) {
    long more = cases.stream().filter(Case::isFalseProceed).count();
    long unknown = cases.stream().filter(Case::isUnknown).count();
    long defined = cases.stream().filter(c -> c.isSafe() && c.read().defined()).count();
    return Words.say(
        "%d tried, %d read as the same or a more restrictive aspect, %d imperfect and safe, %d read as permitting more, %d not known",
        cases.size(), defined, cases.size() - more - unknown - defined, more, unknown);
  }

  private static String chains(LayoutFacts facts) {
    Set<String> names = new LinkedHashSet<>();
    for (Controller controller : facts.layout().controllers()) {
      for (Chain chain : controller.chains()) {
        names.add(chain.name() + " of " + controller.name());
      }
    }
    List<String> all = new ArrayList<>(names);
    return (all.size() == 1 ? "chain " : "chains ") + Words.list(all);
  }
}
