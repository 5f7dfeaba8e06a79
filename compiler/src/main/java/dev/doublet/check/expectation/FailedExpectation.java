package dev.doublet.check.expectation;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Expectation;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Permission.Standing;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Sequence;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A case stated by a rulebook that its aspects do not bear out. */
public final class FailedExpectation implements Check.OfBook {
  private static final int MOST_SHOWN = 3;

  /** Steps of the engine for each expectation. */
  private static final long BUDGET = 1_000_000;

  private final long budget;

  /** Looks as long as anybody waits. */
  public FailedExpectation() {
    this(BUDGET);
  }

  /**
   * Looks only so long.
   *
   * @param budget in steps of the engine for each expectation
   */
  FailedExpectation(long budget) {
    this.budget = budget;
  }

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Expectation expectation : facts.book().expectations()) {
      if (expectation instanceof Expectation.Meaning meaning) {
        meaning(facts.book(), meaning, found);
      } else if (expectation instanceof Expectation.Order order) {
        order(facts.book(), order, found);
      } else if (expectation instanceof Expectation.Allowed allowed) {
        allowed(facts.book(), allowed, found);
      } else if (expectation instanceof Expectation.Precedence precedence) {
        precedence(facts.book(), precedence, found);
      }
    }
    return found;
  }

  private void meaning(Rulebook book, Expectation.Meaning expected, List<Diagnostic> found) {
    for (Expectation.Meaning one : expected.each(book.numbers())) {
      Counterexample counterexample = new Counterexample(book, one, budget);
      Optional<List<Display>> picture = counterexample.find();
      if (picture.isPresent()) {
        found.add(failed(book, one, picture.get()));
        return;
      }
      if (!counterexample.isComplete()) {
        found.add(notKnown(one));
        return;
      }
    }
  }

  private Diagnostic failed(Rulebook book, Expectation.Meaning expected, List<Display> picture) {
    List<Reading.Reads> read = Reading.of(book, expected.form(), expected.plates(), picture);
    List<String> names = read.stream().map(r -> r.aspect().name()).distinct().toList();
    String reads = names.isEmpty() ? "nothing" : Words.quoted(names, n -> n);
    String meant = quoted(expected.aspect());
    String message =
        expected.isOne()
            ? Words.say(
                names.contains(expected.aspect())
                    ? "%s %s means %s, not %s alone"
                    : "%s %s means %s, not %s",
                expected.sight(),
                expected.place(),
                reads,
                meant)
            : Words.say(
                "%s %s means %s, though %s is expected to mean %s",
                Display.over(picture), expected.place(), reads, expected.sight(), meant);
    Diagnostic failed =
        failed(expected, message)
            .words("means", names)
            .word("expected", expected.aspect())
            .words("picture", picture.stream().map(Display::words).toList());
    List<Pattern> shown = names.contains(expected.aspect()) ? List.of() : shown(book, expected);
    for (Pattern pattern : shown) {
      failed = failed.related(pattern.span(), "shows " + quoted(expected.aspect()));
    }
    for (Reading.Reads one : read.subList(0, Math.min(MOST_SHOWN, read.size()))) {
      failed = failed.related(one.pattern().span(), "means " + quoted(one.aspect().name()));
    }
    return failed;
  }

  private Diagnostic notKnown(Expectation.Meaning expected) {
    return finding(
            Severity.WARNING,
            expected.span(),
            Words.say(
                "it takes too long to tell whether every picture of %s %s means %s",
                expected.sight(), expected.place(), quoted(expected.aspect())))
        .because("so many patterns overlap there that not every picture was tried")
        .help("expect single pictures, or fewer at once");
  }

  /** How the expected aspect is shown on that form by signals with those plates. */
  private static List<Pattern> shown(Rulebook book, Expectation.Meaning expected) {
    return book.aspect(expected.aspect()).stream()
        .flatMap(a -> a.patternsOn(expected.form()).stream())
        .filter(p -> expected.plates().containsAll(p.plates()))
        .limit(MOST_SHOWN)
        .toList();
  }

  private void order(Rulebook book, Expectation.Order expected, List<Diagnostic> found) {
    Optional<List<Aspect>> wrong =
        book.together(expected.first(), expected.second()).stream()
            .filter(both -> standing(both) != expected.standing())
            .findFirst();
    if (wrong.isEmpty()) {
      return;
    }
    Aspect first = wrong.get().get(0);
    Aspect second = wrong.get().get(1);
    Standing standing = standing(wrong.get());
    String message =
        expected.standing() == Standing.UNKNOWN
            ? "\"%s\" stands in a known order to \"%s\""
            : "\"%s\" is not " + expected.standing().words() + " than \"%s\"";
    found.add(
        failed(expected, Words.say(message, first.name(), second.name()))
            .related(first.permissionSpan(), allowed(first))
            .related(second.permissionSpan(), allowed(second))
            .words("aspects", List.of(first.name(), second.name()))
            .fact("expected", expected.standing().words())
            .fact("found", standing.words()));
  }

  private static Standing standing(List<Aspect> both) {
    return both.get(0).permission().against(both.get(1).permission());
  }

  private void allowed(Rulebook book, Expectation.Allowed expected, List<Diagnostic> found) {
    Aspect aspect = book.aspect(expected.aspect()).orElseThrow();
    if (!aspect.permission().words().equals(expected.permission().words())) {
      found.add(
          failed(
                  expected,
                  Words.say(
                      "\"%s\" allows %s, not %s",
                      aspect.name(), aspect.permission().words(), expected.permission().words()))
              .related(aspect.permissionSpan(), allowed(aspect))
              .words("aspects", List.of(aspect.name()))
              .word("expected", expected.permission().words())
              .word("found", aspect.permission().words()));
    }
  }

  private void precedence(Rulebook book, Expectation.Precedence expected, List<Diagnostic> found) {
    Optional<List<Aspect>> wrong =
        book.together(expected.first(), expected.second()).stream()
            .filter(both -> Sequence.mayFollow(both.get(0), both.get(1)) != expected.may())
            .findFirst();
    if (wrong.isPresent()) {
      Aspect first = wrong.get().get(0);
      Aspect second = wrong.get().get(1);
      found.add(
          failed(
                  expected,
                  Words.say(
                      expected.may()
                          ? "a train that obeys \"%s\" is not ready for \"%s\" at the next signal"
                          : "a train that obeys \"%s\" is ready for \"%s\" at the next signal",
                      first.name(),
                      second.name()))
              .related(first.permissionSpan(), allowed(first))
              .related(second.permissionSpan(), allowed(second))
              .words("aspects", List.of(first.name(), second.name())));
    }
  }

  private Diagnostic failed(Expectation expectation, String message) {
    return finding(Severity.ERROR, expectation.span(), message)
        .label("expected")
        .word("expectation", expectation.words())
        .because("a rulebook that fails its own cases says something that its author did not mean")
        .help("correct the patterns or permissions, or the expectation if the book has changed");
  }

  private static String allowed(Aspect aspect) {
    return quoted(aspect.name()) + " allows " + aspect.permission().words();
  }

  private static String quoted(String aspect) {
    return aspect.isEmpty() ? "nothing" : "\"" + aspect + "\"";
  }
}
