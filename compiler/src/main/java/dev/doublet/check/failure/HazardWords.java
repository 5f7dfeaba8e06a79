package dev.doublet.check.failure;

import dev.doublet.diagnostic.Words;
import dev.doublet.facts.FaultWords;
import dev.doublet.failure.Case;
import dev.doublet.failure.Hazard;
import dev.doublet.failure.Hazard.Occurrence;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Permission;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** What happens in a hazard, in words. */
final class HazardWords {
  private HazardWords() {}

  /**
   * "on form two-head, "A" is read as "B" when the top head is dark: more here (normal for stop)".
   */
  static String brief(Hazard hazard) {
    Case first = hazard.first();
    return Words.say(
        "on %s, \"%s\" is read as \"%s\" when %s: %s",
        FaultWords.site(hazard.site()),
        first.meant().name(),
        first.worst().aspect().name(),
        FaultWords.failed(hazard.site(), first.trial()),
        hazard.isFalseProceed() ? "more " + more(first) : why(first));
  }

  /** Why nobody can say whether a reading permits more. */
  static String why(Case one) {
    return unranked(one).isEmpty()
        ? "more at the second signal alone"
        : "not known which permits more";
  }

  /** The speeds for want of whose rank nobody can say it. */
  static Set<String> unranked(Case one) {
    return one.worst().aspect().permission().unrankedAgainst(one.meant().permission());
  }

  /** "here (normal for medium) and at the next signal (normal for stop)". */
  static String more(Case one) {
    Permission read = one.worst().aspect().permission();
    Permission meant = one.meant().permission();
    return Words.list(
        read.permitsMoreThan(meant).stream()
            .map(p -> p.words() + " (" + read.words(p) + " for " + meant.words(p) + ")")
            .toList());
  }

  /** Its other cases, so many of them at most, in numbers or by name. */
  static String others(Hazard hazard, int most) {
    Map<Object, List<Occurrence>> cases = new LinkedHashMap<>();
    hazard.found().forEach(f -> cases.computeIfAbsent(numbers(f), k -> new ArrayList<>()).add(f));
    List<List<Occurrence>> all = List.copyOf(cases.values());
    List<List<Occurrence>> rest = all.subList(1, all.size());
    List<String> words = new ArrayList<>();
    if (all.get(0).size() > 1) {
      words.add(otherNumbers(all.get(0)));
    }
    for (List<Occurrence> alike : rest.subList(0, Math.min(most, rest.size()))) {
      Occurrence found = alike.get(0);
      String where =
          found.site() == hazard.site() ? "" : "on " + FaultWords.site(found.site()) + ", ";
      String picture =
          found.one().shown().picture().equals(hazard.first().shown().picture())
              ? ""
              : words(found.one()) + ": ";
      String numbers = alike.size() == 1 ? "" : " (and " + otherNumbers(alike) + ")";
      words.add(where + picture + FaultWords.failed(found.site(), found.one().trial()) + numbers);
    }
    String more = rest.size() > most ? "; and " + (rest.size() - most) + " more" : "";
    return String.join("; ", words) + more;
  }

  /** What cases have in common that differ in numbers alone; nothing for those without numbers. */
  private static Object numbers(Occurrence found) {
    Pattern pattern = found.one().shown().by().pattern();
    return pattern.hasNumeral()
        ? List.of(found.site(), pattern, found.one().trial().faults())
        : found;
  }

  private static String otherNumbers(List<Occurrence> alike) {
    return Words.count(alike.size() - 1, "like case") + " of other numbers";
  }

  /** A hazard with every case of it. */
  static String all(Hazard hazard) {
    return hazard.found().size() == 1
        ? brief(hazard)
        : brief(hazard) + "; also " + others(hazard, Integer.MAX_VALUE);
  }

  /** What was shown. */
  static String words(Case one) {
    return Display.over(one.shown().picture());
  }
}
