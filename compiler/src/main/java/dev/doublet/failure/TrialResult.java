package dev.doublet.failure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

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
 * @param kept all that were tried, unless there are too many at all sites
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
    List<Case> kept,
    long untried) {
  /** No more single faults of all sites together are kept. */
  static final int MOST_KEPT = 50_000;

  /** Copies the lists. */
  public TrialResult {
    hazards = List.copyOf(hazards);
    kept = List.copyOf(kept);
  }

  /** Every single fault at some sites, but for dies stuck lit. */
  public static List<TrialResult> singly(List<Site> sites) {
    List<TrialResult> tried = new ArrayList<>();
    long all = 0;
    for (Site site : sites) {
      TrialResult here = tried(site, tried, MOST_KEPT - all);
      all += here.all;
      tried.add(here);
    }
    return tried;
  }

  /**
   * A site that differs from an earlier one in the name of its form alone is not tried again.
   *
   * @param mostKept all are kept if they are no more
   */
  private static TrialResult tried(Site site, List<TrialResult> before, long mostKept) {
    for (TrialResult known : before) {
      Optional<AlikeSites> alike = AlikeSites.of(known.site, site);
      if (alike.isPresent()) {
        return alike.get().on(known, known.all <= mostKept);
      }
    }
    List<Case> cases = site.cases();
    return singly(site, cases, cases.size() <= mostKept ? cases : List.of());
  }

  /** Every die stuck lit, one at a time. */
  public static TrialResult stuckDies(Site site) {
    return singly(site, site.stuckDies(), List.of());
  }

  private static TrialResult singly(Site site, List<Case> cases, List<Case> kept) {
    return of(site, 1, cases, cases.stream().filter(c -> !c.isSafe()).toList(), kept, 0);
  }

  /** Two faults at once, and those of them that are hazards. */
  static TrialResult pairs(Site site, List<Case> cases, List<Case> hazards, long untried) {
    return of(site, 2, cases, hazards, List.of(), untried);
  }

  private static TrialResult of(
      Site site, int faults, List<Case> cases, List<Case> hazards, List<Case> kept, long untried) {
    return new TrialResult(
        site,
        faults,
        cases.size(),
        cases.stream().filter(c -> c.isSafe() && c.read().defined()).count(),
        cases.stream().filter(Case::isFalseProceed).count(),
        cases.stream().filter(Case::isUnknown).count(),
        hazards,
        kept,
        untried);
  }
}
