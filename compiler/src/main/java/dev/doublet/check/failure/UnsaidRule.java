package dev.doublet.check.failure;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.failure.Hazard;
import dev.doublet.failure.Site;
import dev.doublet.failure.TrialResult;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * A rulebook that does not say how imperfect signals are read, and what each thing that it could
 * say would leave: one finding, not one for each hazard of the worst of them.
 */
final class UnsaidRule {
  private static final int MOST = 3;

  private final Check<?> check;
  private final Rulebook book;
  private final Function<Hazard, Severity> severity;

  UnsaidRule(Check<?> check, Rulebook book, Function<Hazard, Severity> severity) {
    this.check = check;
    this.book = book;
    this.severity = severity;
  }

  /**
   * What the rules would leave on some sites.
   *
   * @param known the hazards there whatever the rule, which are findings of their own
   * @return empty when no rule leaves more
   */
  Optional<Diagnostic> of(List<Site> sites, List<Hazard> known) {
    Map<Imperfect, List<Hazard>> left = new LinkedHashMap<>();
    for (Imperfect rule : Imperfect.CHOICES) {
      List<TrialResult> tried = TrialResult.singly(sites.stream().map(s -> s.under(rule)).toList());
      List<Hazard> more = new ArrayList<>(Hazard.of(tried));
      more.removeIf(h -> h.cover().isPresent() || known.stream().anyMatch(k -> isSame(k, h)));
      left.put(rule, more);
    }
    return left.values().stream()
        .flatMap(List::stream)
        .map(h -> h.isFalseProceed() ? severity.apply(h) : Severity.NOTE)
        .min(Comparator.naturalOrder())
        .map(worst -> say(worst, left));
  }

  private static boolean isSame(Hazard one, Hazard other) {
    return one.first().meant().equals(other.first().meant())
        && one.first().worst().aspect().equals(other.first().worst().aspect())
        && one.faults().equals(other.faults())
        && one.site().isPlaceOf(other.site());
  }

  private Diagnostic say(Severity worst, Map<Imperfect, List<Hazard>> left) {
    Diagnostic said =
        check
            .finding(
                worst,
                book.span(),
                "the rulebook does not say how a crew reads an imperfectly displayed signal")
            .label("no line \"imperfect signals read as …\"");
    for (Map.Entry<Imperfect, List<Hazard>> rule : left.entrySet()) {
      said = said.fact("as " + rule.getKey().words(), words(rule.getValue()));
    }
    return said.because(
            "what a dark lamp leaves to be seen must not give a less restrictive aspect than intended (49 CFR 236.23(f)), and which aspect it gives is for the rulebook to say",
            "49 CFR 236.23(f)")
        .help(
            "write the line that crews are taught; \"most restrictive\" is the aspect of the signal that permits least");
  }

  private static String words(List<Hazard> hazards) {
    if (hazards.isEmpty()) {
      return "leaves nothing that permits more";
    }
    List<String> some = hazards.stream().limit(MOST).map(HazardWords::brief).toList();
    return "leaves "
        + Words.count(hazards.size(), "way")
        + ": "
        + String.join("; ", some)
        + (hazards.size() > MOST ? "; and " + (hazards.size() - MOST) + " more" : "");
  }
}
