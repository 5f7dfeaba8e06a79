package dev.doublet.failure;

import java.util.List;

/**
 * What came of the faults tried on a site, one at a time or two at once.
 *
 * @param site where
 * @param faults how many at once: 1 or 2
 * @param all how many were tried, each result once
 * @param defined how many leave a picture that the book defines and that permits no more
 * @param more how many are read as permitting more
 * @param unknown of how many nobody can say
 * @param hazards those of the last two that no fewer faults tell of
 * @param untried how many were left out because there were too many
 */
public record TrialResult(
    Site site,
    int faults,
    int all,
    long defined,
    long more,
    long unknown,
    List<Case> hazards,
    long untried) {

  /** Copies the list. */
  public TrialResult {
    hazards = List.copyOf(hazards);
  }

  /** Every single fault, but for dies stuck lit. */
  public static TrialResult singly(Site site) {
    return singly(site, site.cases());
  }

  /** Every die stuck lit, one at a time. */
  public static TrialResult stuckDies(Site site) {
    return singly(site, site.stuckDies());
  }

  private static TrialResult singly(Site site, List<Case> cases) {
    return of(site, 1, cases, cases.stream().filter(c -> !c.isSafe()).toList(), 0);
  }

  /** Some cases, and those of them that are hazards. */
  static TrialResult of(Site site, int faults, List<Case> cases, List<Case> hazards, long untried) {
    return new TrialResult(
        site,
        faults,
        cases.size(),
        cases.stream().filter(c -> c.isSafe() && c.read().defined()).count(),
        cases.stream().filter(Case::isFalseProceed).count(),
        cases.stream().filter(Case::isUnknown).count(),
        hazards,
        untried);
  }
}
