package dev.doublet.failure;

import dev.doublet.failure.Hazard.Occurrence;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Reading.Reads;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiFunction;

/** How the single faults of all sites are read now, to hold a change against. */
final class Before {
  private final List<TrialResult> tried;
  private final List<Site> sites;
  private final long faults;
  private final Map<Sight, List<Occurrence>> sights = new LinkedHashMap<>();
  private final Map<Sight, Set<String>> madeOut = new HashMap<>();
  private final Map<Site, Set<Misread>> misread = new HashMap<>();
  private SightIndex indexOrNull;

  Before(List<TrialResult> tried) {
    this.tried = List.copyOf(tried);
    this.sites = tried.stream().map(TrialResult::site).toList();
    this.faults = tried.stream().mapToLong(TrialResult::all).sum();
  }

  /**
   * What a crew has before it.
   *
   * @param form the form of the signal
   * @param seen each head, top to bottom
   * @param plates the plates that are there, sorted
   */
  record Sight(Form form, List<Glimpse> seen, List<String> plates) {
    static Sight of(Site site, Trial trial) {
      return new Sight(site.crew().form(), trial.seen(), trial.plates());
    }
  }

  private record Misread(String meant, List<Fault> faults, String read) {
    private static Misread of(Case one, Reads reads) {
      return new Misread(one.meant().name(), one.trial().faults(), reads.aspect().name());
    }
  }

  /** Every site. */
  List<Site> sites() {
    return sites;
  }

  /** True when there are too many faults to keep them all; then nothing else may be asked here. */
  boolean isTooMuch() {
    return faults > TrialResult.MOST_KEPT;
  }

  /** What the faults leave to be seen. */
  SightIndex index() {
    if (indexOrNull == null) {
      indexOrNull = new SightIndex(sights().keySet());
    }
    return indexOrNull;
  }

  /**
   * Every fault of which a crew would make something else.
   *
   * @param concerned which sights of the index may be read otherwise
   * @param then what is made out of one of them then
   */
  List<Occurrence> readOtherwise(BitSet concerned, BiFunction<Crew, Sight, Crew.Read> then) {
    List<Occurrence> otherwise = new ArrayList<>();
    concerned.stream()
        .mapToObj(index()::get)
        .forEach(
            sight -> {
              List<Occurrence> found = sights().get(sight);
              Crew crew = found.get(0).site().crew();
              Crew.Read read = then.apply(crew, sight);
              if (!read.names().equals(madeOut(sight, crew))) {
                found.forEach(f -> otherwise.add(f.read(f.site().crew().orDark(read))));
              }
            });
    return otherwise;
  }

  /** True when nothing is misread in a way in which no fault of its kind is at its site now. */
  boolean knows(Collection<Occurrence> then) {
    sights();
    return then.stream()
        .filter(f -> !f.one().isSafe())
        .allMatch(
            f ->
                f.one().hazardous().stream()
                    .map(r -> Misread.of(f.one(), r))
                    .allMatch(misread.get(f.site())::contains));
  }

  private Set<String> madeOut(Sight sight, Crew crew) {
    return madeOut.computeIfAbsent(sight, s -> crew.madeOut(s.seen(), s.plates()).names());
  }

  /** Every sight that a fault leaves, with every fault that leaves it; made when first asked. */
  private Map<Sight, List<Occurrence>> sights() {
    if (sights.isEmpty()) {
      for (TrialResult of : tried) {
        Site site = of.site();
        Set<Misread> here = misread.computeIfAbsent(site, s -> new HashSet<>());
        for (Case one : of.kept()) {
          sights
              .computeIfAbsent(Sight.of(site, one.trial()), s -> new ArrayList<>())
              .add(new Occurrence(site, one));
          one.hazardous().forEach(r -> here.add(Misread.of(one, r)));
        }
      }
    }
    return sights;
  }
}
