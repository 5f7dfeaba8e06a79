package dev.doublet.check.failure;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.FaultWords;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.BuildGroup;
import dev.doublet.failure.Pairs;
import dev.doublet.failure.Repertoire;
import dev.doublet.failure.Site;
import dev.doublet.failure.TrialResult;
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
  public boolean takesLong() {
    return true;
  }

  @Override
  public Needs needs() {
    return Needs.LAYOUT;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Site> sites = facts.sites();
    if (facts.builds().isEmpty()) {
      return List.of();
    }
    List<TrialResult> singly = TrialResult.singly(sites);
    List<TrialResult> pairs = facts.asked().pairs() ? Pairs.on(sites, Pairs.MOST_STEPS) : List.of();
    Diagnostic said =
        finding(
            Severity.NOTE,
            facts.layout().span(),
            Words.say(
                "%s%s tried on %s of signal",
                Words.count(all(singly), "single fault"),
                pairs.isEmpty() ? "" : " and " + Words.count(all(pairs), "pair"),
                Words.count(sites.size(), "kind")));
    said =
        said.number("tried", all(singly), "single fault")
            .number("pairs", all(pairs), "pair")
            .number("kinds", sites.size(), "kind");
    for (int i = 0; i < sites.size(); i++) {
      said = said.fact(FaultWords.site(sites.get(i)), results(singly.get(i)));
      if (!pairs.isEmpty()) {
        said = said.fact(FaultWords.site(sites.get(i)) + ", two at once", results(pairs.get(i)));
      }
    }
    List<TrialResult> stuck = sites.stream().map(TrialResult::stuckDies).toList();
    if (all(stuck) > 0) {
      said = said.fact("dies that stay lit", stuck(stuck));
    }
    for (BuildGroup built : facts.told()) {
      Repertoire commanded = Repertoire.of(facts.layout().rulebook(), built.first());
      for (String left : passedOver(commanded)) {
        said = said.fact(built.words(), left);
      }
    }
    return List.of(
        said.fact(
                "not tried",
                "a break after which LEDs keep their last picture, on " + chains(facts))
            .because(
                "a fault must not show a less restrictive aspect than intended", "49 CFR 236.23(f)")
            .help("nothing; what permits more is a finding of its own, or covered"));
  }

  private static String stuck(List<TrialResult> stuck) {
    return Words.say(
        "%d tried, %d read as permitting more, %d not known",
        all(stuck),
        stuck.stream().mapToLong(TrialResult::more).sum(),
        stuck.stream().mapToLong(TrialResult::unknown).sum());
  }

  /** At which pictures of signals no fault was tried. */
  private static List<String> passedOver(Repertoire commanded) {
    List<String> left = new ArrayList<>();
    if (!commanded.meaningless().isEmpty()) {
      left.add(
          Words.say(
              "no fault tried at %s of its heads that %s nothing",
              Words.count(commanded.meaningless().size(), "picture"),
              commanded.meaningless().size() == 1 ? "means" : "mean"));
    }
    if (commanded.untried() > 0) {
      left.add(
          Words.say(
              "no fault tried at %,d more pictures of its heads, as they are too many",
              commanded.untried()));
    }
    return left;
  }

  private static int all(List<TrialResult> sites) {
    return sites.stream().mapToInt(TrialResult::all).sum();
  }

  static String results(TrialResult tried) {
    return Words.say(
            "%d tried, %d read as the same or a more restrictive aspect, %d imperfect and safe, %d read as permitting more, %d not known",
            tried.all(),
            tried.defined(),
            tried.all() - tried.defined() - tried.more() - tried.unknown(),
            tried.more(),
            tried.unknown())
        + (tried.faults() == 1
            ? ""
            : Words.say("; %d of these need both faults", tried.hazards().size()))
        + (tried.untried() == 0
            ? ""
            : Words.say("; %,d more not tried, as they are too many", tried.untried()));
  }

  private static String chains(LayoutFacts facts) {
    Set<String> names = new LinkedHashSet<>();
    for (Controller controller : facts.layout().controllers()) {
      for (Chain chain : controller.chains()) {
        names.add(chain.name() + " of " + controller.name());
      }
    }
    List<String> all = new ArrayList<>(names);
    return Words.plural(all.size(), "chain") + " " + Words.list(all);
  }
}
