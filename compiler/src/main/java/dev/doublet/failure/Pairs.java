package dev.doublet.failure;

import dev.doublet.failure.Site.AspectPicture;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Fault;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiFunction;

/**
 * Two faults at once: every two that one signal can have, at every picture. Two that leave no more
 * than a single fault of either's kind leaves are that fault, and are not counted again.
 *
 * <p>A pair is a hazard of its own only where neither of its faults alone is already read as
 * permitting as much, at that picture. Otherwise it would only repeat the single fault, which is
 * reported with its remedies, or covered, and has to be mended anyway.
 */
public final class Pairs {
  /**
   * How many steps one run takes: one for each pair that is tried and one for each lamp that is
   * lit. Each picture has an equal share of them.
   */
  public static final long MOST_STEPS = 16_000_000;

  private final Site site;
  private final BiFunction<Site, List<Display>, List<Failure>> faults;
  private final long steps;
  private final Map<Object, Crew.Read> known = new HashMap<>();
  private final List<Case> cases = new ArrayList<>();
  private final List<Case> hazards = new ArrayList<>();
  private long untried;

  private Pairs(Site site, BiFunction<Site, List<Display>, List<Failure>> faults, long steps) {
    this.site = site;
    this.faults = faults;
    this.steps = steps;
  }

  /** Tries the pairs of some sites, in no more than so many steps. */
  public static List<TrialResult> on(List<Site> sites, long steps) {
    return on(sites, SiteFailures::failures, steps);
  }

  /** The same where more may fail than a site knows of. */
  public static List<TrialResult> on(
      List<Site> sites, BiFunction<Site, List<Display>, List<Failure>> faults, long steps) {
    int pictures = sites.stream().mapToInt(s -> s.shown().size()).sum();
    List<TrialResult> tried = new ArrayList<>();
    for (Site site : sites) {
      Pairs pairs = new Pairs(site, faults, steps / pictures);
      site.shown().forEach(pairs::at);
      tried.add(TrialResult.pairs(site, pairs.cases, pairs.hazards, pairs.untried));
    }
    return tried;
  }

  private void at(AspectPicture shown) {
    Condition whole = site.whole(shown.picture());
    List<Case> alone = new ArrayList<>();
    Set<Object> results = new HashSet<>();
    for (Failure failure : faults.apply(site, shown.picture())) {
      Trial trial = Trial.of(whole, failure);
      alone.add(weighed(shown, trial));
      results.add(trial.result());
    }
    Set<Object> pairs = new HashSet<>();
    Set<Object> told = new HashSet<>();
    long lit = alone.stream().filter(c -> c.trial().faults().contains(Fault.LAMP_OUT)).count();
    long left = steps / (1 + lit);
    for (int first = 0; first < alone.size(); first++) {
      Case one = alone.get(first);
      int others = alone.size() - first - 1;
      int tried = (int) Math.min(others, left);
      left -= tried;
      untried += others - tried;
      for (Case other : alone.subList(first + 1, first + 1 + tried)) {
        Failure second = other.trial().failures().get(0);
        if (one.trial().failures().get(0).goesWith(second)) {
          Trial both = one.trial().and(second);
          if (!isOneFault(both, results)) {
            add(weighed(shown, both), List.of(one, other), pairs, told);
          }
        }
      }
    }
  }

  private void add(Case pair, List<Case> alone, Set<Object> pairs, Set<Object> told) {
    Object result = pair.trial().result();
    if (pairs.add(result)) {
      cases.add(pair);
    }
    pair.beyond(alone)
        .filter(hazard -> told.add(List.of(result, hazard.read().reads())))
        .ifPresent(hazards::add);
  }

  private Case weighed(AspectPicture shown, Trial trial) {
    Crew.Read read =
        known.computeIfAbsent(
            List.of(trial.seen(), trial.plates()),
            key -> site.crew().read(trial.seen(), trial.plates()));
    return Case.of(shown, trial, read);
  }

  /** True when one fault alone leaves the same: it hides the other, or is a common one. */
  private static boolean isOneFault(Trial both, Set<Object> results) {
    for (Fault kind : both.faults()) {
      if (results.contains(Trial.result(List.of(kind), both.seen(), both.plates()))) {
        return true;
      }
    }
    return false;
  }
}
