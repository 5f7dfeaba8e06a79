package dev.doublet.check.coverage;

import dev.doublet.cells.Gaps;
import dev.doublet.cells.Row;
import dev.doublet.cells.Table;
import dev.doublet.cells.Values;
import dev.doublet.cells.Variable;
import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.BuildGroup;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** Pictures that a signal's lamps can make and its rulebook does not define. */
public final class MeaninglessPictures implements Check.OfLayout {
  private static final long BUDGET = 1_000_000;
  private static final int EXAMPLES = 3;

  private final long budget;

  /** Looks as long as anybody waits. */
  public MeaninglessPictures() {
    this(BUDGET);
  }

  /**
   * Looks only so long.
   *
   * @param budget in steps of the engine for each kind of signal
   */
  MeaninglessPictures(long budget) {
    this.budget = budget;
  }

  @Override
  public boolean givesOnlyNotes() {
    return true;
  }

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (BuildGroup built : facts.builds()) {
      meaningless(facts.layout().rulebook(), built).ifPresent(found::add);
    }
    return found;
  }

  private Optional<Diagnostic> meaningless(Rulebook book, BuildGroup built) {
    List<List<Display>> displays =
        built.build().heads().stream().map(h -> displays(book, h)).toList();
    List<Variable> heads = new ArrayList<>();
    for (int i = 0; i < displays.size(); i++) {
      heads.add(new Variable(built.build().form().places().get(i), displays.get(i).size()));
    }
    Table table = new Table(heads, rows(book, built.build(), displays));
    Gaps gaps = Gaps.of(table, budget);
    Optional<BigInteger> count = Gaps.uncovered(table, budget);
    boolean none = gaps.cubes().isEmpty() && gaps.complete();
    if (none || count.equals(Optional.of(BigInteger.ZERO))) {
      return Optional.empty();
    }
    BigInteger all =
        displays.stream()
            .map(d -> BigInteger.valueOf(d.size()))
            .reduce(BigInteger.ONE, BigInteger::multiply);
    String some = count.map(BigInteger::toString).orElse("some");
    boolean known = count.isPresent() || !gaps.cubes().isEmpty();
    Diagnostic finding =
        finding(
            Severity.NOTE,
            built.first().span(),
            Words.say(
                known
                    ? "the rulebook gives no meaning to %s of the %s pictures that %s can make"
                    : "it takes too long to tell whether the rulebook gives no meaning to %s of the %s pictures that %s can make",
                some,
                all,
                built.words()));
    finding =
        finding
            .about(built.names())
            .words("signals", built.names())
            .word("without meaning", some)
            .word("pictures", all.toString());
    if (known && count.isEmpty()) {
      finding = finding.fact("how many", "more than could be counted in time");
    }
    if (!gaps.cubes().isEmpty()) {
      finding =
          finding.fact(
              "for one",
              gaps.cubes().stream()
                  .map(c -> words(displays, c.point()))
                  .distinct()
                  .limit(EXAMPLES)
                  .collect(Collectors.joining("; ")));
    }
    return Optional.of(
        finding
            .because(
                "rulebooks have the crew take an imperfectly displayed signal as its most restrictive aspect")
            .help("nothing, unless one of these pictures is missing from the book"));
  }

  private static List<Display> displays(Rulebook book, HeadType head) {
    SortedSet<String> looks = new TreeSet<>();
    head.figures().forEach(f -> looks.add(f.name()));
    head.lamps()
        .forEach(
            l ->
                l.colours().stream()
                    .filter(c -> head.lights(c.name()).isPresent())
                    .forEach(c -> looks.add(c.name())));
    List<Display> displays = new ArrayList<>();
    for (String look : looks) {
      displays.add(Display.steady(look));
      if (!book.takesNoRhythm(look)) {
        book.rhythms().forEach(r -> displays.add(new Display(look, r.name())));
      }
    }
    if (!head.isArm()) {
      // Last, so that an example is lit where it can be.
      displays.add(Display.DARK);
    }
    return displays;
  }

  private static List<Row> rows(Rulebook book, Signal.Build build, List<List<Display>> displays) {
    List<Row> rows = new ArrayList<>();
    for (Aspect aspect : book.aspects()) {
      for (Pattern pattern : aspect.patternsOn(build.form())) {
        if (build.plates().containsAll(pattern.plates())) {
          List<Values> sets = new ArrayList<>();
          for (int i = 0; i < displays.size(); i++) {
            sets.add(accepted(pattern.choices().get(i), displays.get(i)));
          }
          rows.add(new Row(sets, 0));
        }
      }
    }
    return rows;
  }

  private static Values accepted(Choice choice, List<Display> displays) {
    int[] accepted =
        IntStream.range(0, displays.size()).filter(i -> choice.accepts(displays.get(i))).toArray();
    return Values.of(displays.size(), accepted);
  }

  private static String words(List<List<Display>> displays, int[] point) {
    List<Display> picture = new ArrayList<>();
    for (int i = 0; i < point.length; i++) {
      picture.add(displays.get(i).get(point[i]));
    }
    return Display.over(picture);
  }
}
