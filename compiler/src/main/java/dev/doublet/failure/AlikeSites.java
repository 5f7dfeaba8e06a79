package dev.doublet.failure;

import dev.doublet.failure.Site.AspectPicture;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading.Reads;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Two forms of a rulebook that differ in name alone: as many heads on the same mount, of which
 * every pattern says the same. What came of the faults of one then came of the other.
 */
final class AlikeSites {
  private final Site other;
  private final Map<AspectPicture, AspectPicture> shown = new IdentityHashMap<>();
  private final Map<Pattern, Pattern> patterns = new HashMap<>();

  private AlikeSites(Site one, Site other) {
    this.other = other;
    for (int i = 0; i < one.shown().size(); i++) {
      shown.put(one.shown().get(i), other.shown().get(i));
    }
    List<Reads> known = one.crew().patterns().patterns();
    for (int i = 0; i < known.size(); i++) {
      patterns.put(known.get(i).pattern(), other.crew().patterns().patterns().get(i).pattern());
    }
    one.crew()
        .provisos()
        .reads()
        .forEach(
            (proviso, its) ->
                patterns.put(
                    its.pattern(), other.crew().provisos().reads().get(proviso).pattern()));
  }

  /** How two sites stand for one another; empty when they do not, or are signals of a layout. */
  static Optional<AlikeSites> of(Site one, Site other) {
    Form form = one.crew().form();
    boolean alike =
        one.heads().isEmpty()
            && other.heads().isEmpty()
            && form.mount() == other.crew().form().mount()
            && one.plates().equals(other.plates())
            && one.crew().rule() == other.crew().rule()
            && one.shown().size() == other.shown().size()
            && sayTheSame(one.crew().patterns().patterns(), other.crew().patterns().patterns())
            && showTheSame(one.shown(), other.shown());
    return alike ? Optional.of(new AlikeSites(one, other)) : Optional.empty();
  }

  private static boolean sayTheSame(List<Reads> one, List<Reads> other) {
    if (one.size() != other.size()) {
      return false;
    }
    for (int i = 0; i < one.size(); i++) {
      Pattern pattern = one.get(i).pattern();
      Pattern its = other.get(i).pattern();
      if (one.get(i).aspect() != other.get(i).aspect()
          || !pattern.plates().equals(its.plates())
          || !pattern.choices().equals(its.choices())) {
        return false;
      }
    }
    return true;
  }

  private static boolean showTheSame(List<AspectPicture> one, List<AspectPicture> other) {
    for (int i = 0; i < one.size(); i++) {
      if (!one.get(i).picture().equals(other.get(i).picture())
          || !one.get(i).aspect().name().equals(other.get(i).aspect().name())) {
        return false;
      }
    }
    return true;
  }

  private List<Case> on(List<Case> cases) {
    return cases.stream().map(this::on).toList();
  }

  /**
   * What came of the faults of the one, said of the other.
   *
   * @param keep whether all that were tried are kept
   */
  TrialResult on(TrialResult of, boolean keep) {
    return new TrialResult(
        other,
        of.faults(),
        of.all(),
        of.defined(),
        of.more(),
        of.unknown(),
        on(of.hazards()),
        keep ? on(of.kept()) : List.of(),
        of.untried());
  }

  private Case on(Case one) {
    Crew.Read read =
        new Crew.Read(one.read().defined(), one.read().reads().stream().map(this::on).toList());
    return new Case(shown.get(one.shown()), one.trial(), read, one.verdict(), on(one.worst()));
  }

  /** Patterns of forms with fewer heads are the same for both. */
  private Reads on(Reads reads) {
    Pattern its = patterns.get(reads.pattern());
    return its == null ? reads : new Reads(reads.aspect(), its);
  }
}
