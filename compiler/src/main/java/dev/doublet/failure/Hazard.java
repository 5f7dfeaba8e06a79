package dev.doublet.failure;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Cover;
import dev.doublet.rulebook.Failures;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Mount;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * One kind of fault, or two kinds at once, that may turn one aspect into one other on forms that
 * look alike, with every case of it.
 *
 * @param found at least one, all covered alike
 * @param coverOrNull what covers it in practice
 */
public record Hazard(List<Occurrence> found, Cover coverOrNull) {

  /** Copies the list. */
  public Hazard {
    found = List.copyOf(found);
  }

  /**
   * One case, and where.
   *
   * @param site where
   * @param one the case
   */
  public record Occurrence(Site site, Case one) {
    /** The same when it is read otherwise. */
    Occurrence read(Crew.Read otherwise) {
      return new Occurrence(site, Case.of(one.shown(), one.trial(), otherwise));
    }
  }

  private record Key(
      Mount mount,
      int heads,
      String meant,
      String worst,
      List<Fault> faults,
      Verdict verdict,
      Cover cover) {}

  /** Every hazard found on some sites, in their order. */
  public static List<Hazard> of(List<TrialResult> sites) {
    Map<Key, List<Occurrence>> found = new LinkedHashMap<>();
    for (TrialResult tried : sites) {
      for (Case one : tried.hazards()) {
        Key key = key(tried.site(), one);
        found.computeIfAbsent(key, k -> new ArrayList<>()).add(new Occurrence(tried.site(), one));
      }
    }
    List<Hazard> hazards = new ArrayList<>();
    found.forEach((key, cases) -> hazards.add(new Hazard(cases, key.cover())));
    return hazards;
  }

  private static Key key(Site site, Case one) {
    Form form = site.crew().form();
    Cover cover = cover(site.crew().book().failures(), one.trial().faults(), form);
    return new Key(
        form.mount(),
        form.places().size(),
        one.meant().family(),
        one.worst().aspect().family(),
        one.trial().faults(),
        one.verdict(),
        cover);
  }

  /** The most restrictive aspects of the signal, where one may be read that has several. */
  private static Set<Aspect> dark(Site site, Case one) {
    Set<Aspect> dark = new LinkedHashSet<>();
    if (!one.read().defined() && one.read().reads().equals(site.crew().dark())) {
      site.crew().dark().forEach(r -> dark.add(r.aspect()));
    }
    return dark.size() > 1 ? dark : Set.of();
  }

  /**
   * The most restrictive aspects of the signal, in the order of the book, where it has several, so
   * that nobody knows which of them it is read as in any of the cases; empty otherwise.
   */
  public Set<Aspect> dark() {
    Set<Aspect> dark = dark(site(), first());
    return found.stream().allMatch(f -> dark(f.site(), f.one()).equals(dark)) ? dark : Set.of();
  }

  /** What covers one of several faults covers all of them: that one never misleads. */
  private static Cover cover(Failures failures, List<Fault> faults, Form form) {
    return faults.stream()
        .flatMap(fault -> failures.cover(fault, form).stream())
        .findFirst()
        .orElse(null);
  }

  /** What covers it in practice; empty when nothing does. */
  public Optional<Cover> cover() {
    return Optional.ofNullable(coverOrNull);
  }

  /** The first case, which messages tell of. */
  public Case first() {
    return found.get(0).one();
  }

  /** Where the first case is. */
  public Site site() {
    return found.get(0).site();
  }

  /** The kinds of its faults, as many as there are faults, sorted. */
  public List<Fault> faults() {
    return first().trial().faults();
  }

  /** True when some faults are read as this hazard is, by the same kind of fault, where it is. */
  boolean isSeenIn(Collection<Occurrence> then) {
    List<Occurrence> like = then.stream().filter(f -> isSeenIn(f.one())).toList();
    return !like.isEmpty()
        && like.stream().anyMatch(f -> found.stream().anyMatch(was -> was.site() == f.site()));
  }

  private boolean isSeenIn(Case other) {
    return other.meant().isOf(first().meant())
        && other.trial().faults().equals(faults())
        && other.hazardous().stream().anyMatch(r -> r.aspect().isOf(first().worst().aspect()));
  }

  /** True when two things must fail at once. */
  public boolean isPair() {
    return faults().size() > 1;
  }

  /** True when the crew may go on with more than was meant; false when nobody can say. */
  public boolean isFalseProceed() {
    return first().isFalseProceed();
  }
}
