package dev.doublet.check.expectation;

import dev.doublet.check.BookFacts;
import dev.doublet.check.Check;
import dev.doublet.check.Words;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Expectation;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Permission.Standing;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.List;

/** A case stated by a rulebook that its aspects do not bear out. */
public final class FailedExpectation implements Check.OfBook {
  private static final int MOST_SHOWN = 3;

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Expectation expectation : facts.book().expectations()) {
      if (expectation instanceof Expectation.Meaning meaning) {
        meaning(facts.book(), meaning, found);
      } else if (expectation instanceof Expectation.Order order) {
        order(facts.book(), order, found);
      }
    }
    return found;
  }

  private void meaning(Rulebook book, Expectation.Meaning expected, List<Diagnostic> found) {
    List<Reading.Reads> reads =
        Reading.of(book, expected.form(), expected.plates(), expected.picture());
    List<String> names = reads.stream().map(r -> r.aspect().name()).distinct().toList();
    if (names.equals(expected.aspect().isEmpty() ? List.of() : List.of(expected.aspect()))) {
      return;
    }
    String message = Words.say("%s does not mean %s", expected.sight(), quoted(expected.aspect()));
    Diagnostic failed =
        failed(expected, message)
            .fact("expected", quoted(expected.aspect()))
            .fact("found", names.isEmpty() ? "nothing" : Words.quoted(names, n -> n));
    for (Pattern pattern : shown(book, expected)) {
      failed = failed.related(pattern.span(), "shows " + quoted(expected.aspect()));
    }
    for (Reading.Reads one : reads) {
      failed = failed.related(one.pattern().span(), "means " + quoted(one.aspect().name()));
    }
    found.add(failed);
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
    Aspect first = book.aspect(expected.first()).orElseThrow();
    Aspect second = book.aspect(expected.second()).orElseThrow();
    Standing standing = first.permission().against(second.permission());
    if (standing == expected.standing()) {
      return;
    }
    String message =
        expected.standing() == Standing.UNKNOWN
            ? "\"%s\" stands in a known order to \"%s\""
            : "\"%s\" is not " + expected.standing().words() + " than \"%s\"";
    found.add(
        failed(expected, Words.say(message, first.name(), second.name()))
            .related(first.permissionSpan(), allowed(first))
            .related(second.permissionSpan(), allowed(second))
            .fact("expected", expected.standing().words())
            .fact("found", standing.words()));
  }

  private Diagnostic failed(Expectation expectation, String message) {
    return finding(Severity.ERROR, expectation.span(), message)
        .label("expected")
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
