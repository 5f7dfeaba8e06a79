package dev.doublet.check.ambiguity;

import dev.doublet.cells.Cube;
import dev.doublet.cells.Gaps;
import dev.doublet.cells.Overlap;
import dev.doublet.cells.Overlaps;
import dev.doublet.cells.Row;
import dev.doublet.cells.Table;
import dev.doublet.cells.Values;
import dev.doublet.check.BookFacts;
import dev.doublet.check.BookFacts.Look;
import dev.doublet.check.BookFacts.Shown;
import dev.doublet.check.Check;
import dev.doublet.check.PatternTable;
import dev.doublet.check.Words;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Pattern;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;

/** Two aspects that one picture means. */
public final class TwinAspects implements Check.OfBook {
  private static final long BUDGET = 1_000_000;

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
      for (Overlap overlap : Overlaps.conflicts(patterns.table())) {
        twin(look, patterns, overlap)
            .ifPresent(t -> twins.computeIfAbsent(t.pair(), p -> new ArrayList<>()).add(t));
      }
      twins.values().forEach(t -> found.add(report(look, t)));
    }
    return found;
  }

  private record Pair(String first, String second) {}

  private record Twin(Shown first, Shown second, List<Display> picture) {
    Pair pair() {
      return new Pair(first.aspect().name(), second.aspect().name());
    }
  }

  private static Optional<Twin> twin(Look look, PatternTable patterns, Overlap overlap) {
    Shown first = look.shown().get(overlap.first());
    Shown second = look.shown().get(overlap.second());
    boolean decided =
        first.pattern().moreSpecificThan(second.pattern())
            || second.pattern().moreSpecificThan(first.pattern());
    return decided
        ? Optional.empty()
        : undecided(look, patterns, overlap)
            .map(cube -> new Twin(first, second, patterns.picture(cube)));
  }

  /**
   * The shared pictures that remain when every pattern has been taken away that outdoes one of the
   * two on the plainest signal that carries the plates of both.
   */
  private static Optional<Cube> undecided(Look look, PatternTable patterns, Overlap overlap) {
    Pattern first = look.shown().get(overlap.first()).pattern();
    Pattern second = look.shown().get(overlap.second()).pattern();
    TreeSet<String> carried = new TreeSet<>(first.plates());
    carried.addAll(second.plates());
    List<Row> outdoing = new ArrayList<>();
    for (int i = 0; i < look.shown().size(); i++) {
      Pattern other = look.shown().get(i).pattern();
      boolean outdoes = other.moreSpecificThan(first) || other.moreSpecificThan(second);
      if (outdoes && carried.containsAll(other.plates())) {
        outdoing.add(patterns.table().rows().get(i));
      }
    }
    if (outdoing.isEmpty()) {
      return Optional.of(overlap.shared());
    }
    outdoing.addAll(outside(overlap.shared()));
    Gaps left = Gaps.of(new Table(patterns.table().variables(), outdoing), BUDGET);
    return left.cubes().stream().findFirst();
  }

  private static List<Row> outside(Cube cube) {
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < cube.sets().size(); i++) {
      Values set = cube.sets().get(i);
      if (!set.isAll()) {
        List<Values> sets = new ArrayList<>();
        cube.sets().forEach(s -> sets.add(Values.all(s.size())));
        sets.set(i, set.complement());
        rows.add(new Row(sets, -1));
      }
    }
    return rows;
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
            .label("shows \"" + early.aspect().name() + "\"" + plates(early.pattern()))
            .related(
                late.pattern().span(),
                "shows \"" + late.aspect().name() + "\"" + plates(late.pattern()))
            .fact("both show", PatternTable.words(twin.picture()));
    if (twins.size() > 1) {
      finding = finding.fact("pairs of patterns that meet", Integer.toString(twins.size()));
    }
    return finding
        .because("one picture has one name; a crew cannot obey both (49 CFR 236.23(c))")
        .help(advice(early, late));
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
