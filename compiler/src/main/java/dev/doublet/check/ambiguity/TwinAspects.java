package dev.doublet.check.ambiguity;

import dev.doublet.cells.Gaps;
import dev.doublet.cells.Overlap;
import dev.doublet.cells.Overlaps;
import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.BookFacts.Look;
import dev.doublet.facts.BookFacts.Shown;
import dev.doublet.facts.PatternTable;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/** Two aspects that one picture means. */
public final class TwinAspects implements Check.OfBook {
  /** Steps of the engine for each look: about a second. */
  private static final long BUDGET = 10_000_000;

  private final long budget;

  /** Looks as long as anybody waits. */
  public TwinAspects() {
    this(BUDGET);
  }

  /**
   * Looks only so long.
   *
   * @param budget in steps of the engine for each look
   */
  TwinAspects(long budget) {
    this.budget = budget;
  }

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Look look : facts.looks()) {
      PatternTable patterns = PatternTable.of(facts, look);
      Map<Pair, List<Twin>> twins = new LinkedHashMap<>();
      Map<Pair, Twin> unknown = new LinkedHashMap<>();
      long left = budget;
      for (Overlap overlap : Overlaps.conflicts(patterns.table())) {
        Gaps shared = undecided(look, patterns, overlap, left);
        left -= shared.steps();
        Twin twin = twin(look, patterns, overlap, shared);
        if (!shared.cubes().isEmpty()) {
          twins.computeIfAbsent(twin.pair(), p -> new ArrayList<>()).add(twin);
        } else if (!shared.complete()) {
          unknown.putIfAbsent(twin.pair(), twin);
        }
      }
      twins.values().forEach(t -> found.add(report(look, t)));
      unknown.keySet().removeAll(twins.keySet());
      if (!unknown.isEmpty()) {
        found.add(notKnown(look, List.copyOf(unknown.values())));
      }
    }
    return found;
  }

  private record Pair(String first, String second) {
    String words() {
      return "\"" + first + "\" and \"" + second + "\"";
    }
  }

  /** Two patterns of two aspects, and a picture that both show; empty when none is known. */
  private record Twin(Shown first, Shown second, List<Display> picture) {
    Pair pair() {
      return new Pair(first.aspect().name(), second.aspect().name());
    }
  }

  private static Twin twin(Look look, PatternTable patterns, Overlap overlap, Gaps shared) {
    List<Display> picture =
        shared.cubes().isEmpty() ? List.of() : patterns.picture(shared.cubes().get(0));
    Shown first = look.shown().get(overlap.first());
    Shown second = look.shown().get(overlap.second());
    return new Twin(first, second, picture);
  }

  /**
   * The shared pictures that remain when every pattern has been taken away that outdoes one of the
   * two on the plainest signal that carries the plates of both.
   */
  private static Gaps undecided(Look look, PatternTable patterns, Overlap overlap, long budget) {
    Pattern first = look.shown().get(overlap.first()).pattern();
    Pattern second = look.shown().get(overlap.second()).pattern();
    if (first.moreSpecificThan(second) || second.moreSpecificThan(first)) {
      return new Gaps(List.of(), true, 0);
    }
    TreeSet<String> carried = new TreeSet<>(first.plates());
    carried.addAll(second.plates());
    List<Integer> outdoing = new ArrayList<>();
    for (int i = 0; i < look.shown().size(); i++) {
      Pattern other = look.shown().get(i).pattern();
      boolean outdoes = other.moreSpecificThan(first) || other.moreSpecificThan(second);
      if (outdoes && carried.containsAll(other.plates())) {
        outdoing.add(i);
      }
    }
    return outdoing.isEmpty()
        ? new Gaps(List.of(overlap.shared()), true, 0)
        : patterns.outside(outdoing, overlap.shared(), budget);
  }

  private Diagnostic report(Look look, List<Twin> twins) {
    Twin twin =
        twins.stream()
            .min(
                Comparator.comparing((Twin t) -> t.first().pattern().span())
                    .thenComparing(t -> t.second().pattern().span()))
            .orElseThrow();
    boolean inOrder = twin.first().pattern().span().compareTo(twin.second().pattern().span()) <= 0;
    Shown early = inOrder ? twin.first() : twin.second();
    Shown late = inOrder ? twin.second() : twin.first();
    Diagnostic finding =
        finding(
                Severity.ERROR,
                early.pattern().span(),
                Words.say(
                    "\"%s\" and \"%s\" look alike on %s",
                    early.aspect().name(), late.aspect().name(), look.words()))
            .about(about(look, List.of(twin)))
            .label(shows(early))
            .related(late.pattern().span(), shows(late))
            .fact("both show", Display.over(twin.picture()));
    if (twins.size() > 1) {
      finding = finding.fact("pairs of patterns that meet", Integer.toString(twins.size()));
    }
    return finding
        .because("one picture has one name; a crew cannot obey both (49 CFR 236.23(c))")
        .help(advice(early, late));
  }

  private Diagnostic notKnown(Look look, List<Twin> twins) {
    Twin twin = twins.get(0);
    Diagnostic finding =
        finding(
                Severity.WARNING,
                twin.first().pattern().span(),
                Words.say(
                    "it takes too long to tell whether %s look alike on %s",
                    twin.pair().words(), look.words()))
            .about(about(look, twins))
            .label(shows(twin.first()))
            .related(twin.second().pattern().span(), shows(twin.second()));
    if (twins.size() > 1) {
      List<String> others =
          twins.subList(1, twins.size()).stream().map(t -> t.pair().words()).toList();
      finding = finding.fact("not known either", String.join("; ", others));
    }
    return finding
        .because(
            "patterns with more plates settle some of the pictures that both show, and too many of them overlap to try every picture")
        .help("give the two different displays, or write fewer patterns that overlap");
  }

  private static List<String> about(Look look, List<Twin> twins) {
    List<String> names = new ArrayList<>(look.forms().stream().map(Form::name).toList());
    twins.forEach(t -> names.addAll(List.of(t.pair().first(), t.pair().second())));
    return names;
  }

  private static String shows(Shown shown) {
    return "shows \"" + shown.aspect().name() + "\"" + plates(shown.pattern());
  }

  private static String plates(Pattern pattern) {
    return pattern.plates().isEmpty()
        ? ""
        : " with the "
            + Words.list(pattern.plates())
            + (pattern.plates().size() == 1 ? " plate" : " plates");
  }

  private static String advice(Shown early, Shown late) {
    if (early.pattern().plates().isEmpty() && late.pattern().plates().isEmpty()) {
      return "change one of the two patterns, or say which plate a signal carries for one of them (\"with … plate\")";
    }
    return "change one of the two patterns, or write one that names the plates of both";
  }
}
