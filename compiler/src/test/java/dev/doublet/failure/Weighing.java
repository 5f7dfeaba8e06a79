package dev.doublet.failure;

import dev.doublet.facts.FaultWords;
import dev.doublet.failure.CountingCrew.Seen;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Reading.Reads;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BiPredicate;
import java.util.function.Function;
import java.util.function.UnaryOperator;

/**
 * Weighs every fault and every two faults of a signal that shows one aspect, without the compiler:
 * each fault is done to a signal, and a crew that counts out every picture looks at it.
 *
 * @param <S> a signal as it stands
 * @param where the signal and what it shows, in words
 * @param crew who looks
 * @param meant the aspect that it shows
 * @param eyes what is seen of its heads
 * @param plates the plates that it still carries
 * @param together true of two faults that one signal can have
 */
record Weighing<S>(
    String where,
    CountingCrew crew,
    Aspect meant,
    Function<S, List<Seen>> eyes,
    Function<S, List<String>> plates,
    BiPredicate<Harm<S>, Harm<S>> together) {

  /**
   * One fault.
   *
   * @param kind its kind
   * @param on what it is a fault of
   * @param does what it does
   */
  record Harm<S>(Fault kind, Set<?> on, UnaryOperator<S> does) {}

  /** Adds what every single fault leads to. */
  void singly(S whole, List<Harm<S>> harms, Set<String> lines) {
    for (Harm<S> harm : harms) {
      S after = harm.does().apply(whole);
      lines.add(line(List.of(harm.kind()), after, hazards(after)));
    }
  }

  /** Adds what every two faults lead to that one of them does not, and counts all of them. */
  void inPairs(S whole, List<Harm<S>> harms, Set<String> lines, TreeMap<String, Integer> counts) {
    Set<Object> alone = new LinkedHashSet<>();
    harms.forEach(h -> alone.add(result(List.of(h.kind()), h.does().apply(whole))));
    Set<Object> results = new LinkedHashSet<>();
    for (int i = 0; i < harms.size(); i++) {
      for (int j = i + 1; j < harms.size(); j++) {
        Harm<S> one = harms.get(i);
        Harm<S> other = harms.get(j);
        // Done in the other order than the compiler does them: it must not matter.
        S after = one.does().apply(other.does().apply(whole));
        if (!together.test(one, other)
            || alone.contains(result(List.of(one.kind()), after))
            || alone.contains(result(List.of(other.kind()), after))) {
          continue;
        }
        List<Fault> kinds = new ArrayList<>(List.of(one.kind(), other.kind()));
        kinds.sort(null);
        Set<Aspect> hazards = hazards(after);
        if (results.add(result(kinds, after))) {
          counts.merge(CountingCrew.verdict(hazards, meant), 1, Integer::sum);
        }
        Set<Aspect> told = new LinkedHashSet<>(hazards(one.does().apply(whole)));
        told.addAll(hazards(other.does().apply(whole)));
        hazards.removeIf(h -> told.stream().anyMatch(t -> t == h || CountingCrew.isNoMore(h, t)));
        if (!hazards.isEmpty()) {
          lines.add(line(kinds, after, hazards));
        }
      }
    }
  }

  private Set<Aspect> hazards(S after) {
    List<Seen> seen = eyes.apply(after);
    return crew.means(seen, plates.apply(after), meant)
        ? new LinkedHashSet<>()
        : CountingCrew.hazards(crew.reads(seen, plates.apply(after)), meant);
  }

  private Object result(List<Fault> kinds, S after) {
    return List.of(kinds, eyes.apply(after), plates.apply(after));
  }

  private String line(List<Fault> kinds, S after, Set<Aspect> hazards) {
    List<String> words = eyes.apply(after).stream().map(Seen::words).toList();
    String result = kinds + " seen as " + words + plates.apply(after);
    return line(where, result, CountingCrew.verdict(hazards, meant), hazards);
  }

  private static String line(String where, String result, String verdict, Set<Aspect> hazards) {
    Set<String> names = new TreeSet<>();
    hazards.forEach(h -> names.add(h.name()));
    return String.join(" | ", where, result, verdict + " " + names);
  }

  /** A signal and what it shows, in words. */
  static String where(Site site, Aspect meant, List<String> picture) {
    return site.crew().form().name() + site.plates() + " | " + meant.name() + " " + picture;
  }

  /** What the compiler makes of one case, as a line of the same form. */
  static String line(Site site, Case one) {
    List<String> picture = one.shown().picture().stream().map(d -> d.words()).toList();
    List<String> seen = one.trial().seen().stream().map(FaultWords::seen).toList();
    Set<Aspect> reads = new LinkedHashSet<>();
    one.read().reads().stream().map(Reads::aspect).forEach(reads::add);
    String verdict = one.isFalseProceed() ? "less" : one.isUnknown() ? "unknown" : "safe";
    return line(
        where(site, one.meant(), picture),
        one.trial().faults() + " seen as " + seen + one.trial().plates(),
        verdict,
        CountingCrew.hazards(reads, one.meant()));
  }
}
