package dev.doublet.check.ambiguity;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.BookFacts.AspectPattern;
import dev.doublet.facts.BookFacts.Look;
import dev.doublet.facts.PatternTable;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** Aspects that one picture means. */
public final class TwinAspects implements Check.OfBook {
  /** Steps of the engine for each look: about a second. */
  private static final long BUDGET = 10_000_000;

  private static final int MOST_PLACES = 6;
  private static final int MOST_PAIRS = 10;

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
      Twins twins = Twins.of(look, PatternTable.of(facts, look), budget);
      twins.pictures().forEach(p -> found.add(report(look, p)));
      if (twins.more() > 0) {
        found.add(more(look, twins));
      }
      if (!twins.untried().isEmpty()) {
        found.add(notKnown(look, twins.untried()));
      }
    }
    return found;
  }

  private Diagnostic report(Look look, Twins.Picture twins) {
    List<AspectPattern> shown = twins.shown();
    boolean two = shown.size() == 2;
    Diagnostic finding =
        finding(
                Severity.ERROR,
                shown.get(0).pattern().span(),
                Words.say("%s look alike on %s", names(shown), look.words()))
            .about(about(look, shown.stream()))
            .label(shows(shown.get(0)))
            .words("forms", look.forms().stream().map(Form::name).toList())
            .words("aspects", shown.stream().map(s -> s.aspect().name()).toList())
            .words("picture", twins.picture().stream().map(Display::words).toList())
            .fact(two ? "both show" : "all show", Display.over(twins.picture()));
    for (AspectPattern one : shown.subList(1, Math.min(MOST_PLACES, shown.size()))) {
      finding = finding.related(one.pattern().span(), shows(one));
    }
    if (shown.size() > MOST_PLACES) {
      finding = finding.fact("not shown", (shown.size() - MOST_PLACES) + " more patterns");
    }
    boolean plain = shown.stream().allMatch(s -> s.pattern().plates().isEmpty());
    return finding
        .because(
            Words.say("one picture has one name; a crew cannot obey %s", two ? "both" : "several"),
            "49 CFR 236.23(c)")
        .help(advice(two, plain));
  }

  private static String advice(boolean two, boolean plain) {
    if (plain) {
      return two
          ? "change one of the two patterns, or say which plate a signal carries for one of them (\"with … plate\")"
          : "change all of the patterns but one, or say which plates tell them apart (\"with … plate\")";
    }
    return two
        ? "change one of the two patterns, or write one that names the plates of both"
        : "change all of the patterns but one, or write one that names the plates of all";
  }

  private Diagnostic more(Look look, Twins twins) {
    AspectPattern first = twins.pictures().get(0).shown().get(0);
    return finding(
            Severity.ERROR,
            first.pattern().span(),
            Words.say("%,d more pairs of patterns look alike on %s", twins.more(), look.words()))
        .about(about(look, Stream.of()))
        .words("forms", look.forms().stream().map(Form::name).toList())
        .number("more", twins.more(), "pair")
        .because(Words.say("of one form, at most %,d pictures are told", Twins.MOST_PICTURES))
        .help("mend what is told, and check again");
  }

  private Diagnostic notKnown(Look look, List<Twins.Pair> pairs) {
    Twins.Pair pair = pairs.get(0);
    Diagnostic finding =
        finding(
                Severity.WARNING,
                pair.first().pattern().span(),
                Words.say(
                    "it takes too long to tell whether %s look alike on %s",
                    words(pair), look.words()))
            .about(about(look, pairs.stream().flatMap(p -> Stream.of(p.first(), p.second()))))
            .label(shows(pair.first()))
            .related(pair.second().pattern().span(), shows(pair.second()))
            .words("forms", look.forms().stream().map(Form::name).toList())
            .words("aspects", List.of(pair.first().aspect().name(), pair.second().aspect().name()));
    if (pairs.size() > 1) {
      List<String> others =
          pairs.stream().skip(1).limit(MOST_PAIRS).map(TwinAspects::words).toList();
      int more = pairs.size() - 1 - others.size();
      String last =
          more == 0 ? "" : pairs.size() < Twins.MOST_UNTRIED ? "; " + more + " more" : "; and more";
      finding = finding.fact("not known either", String.join("; ", others) + last);
    }
    return finding
        .because(
            "patterns with more plates settle some of the pictures that both show, and too many of them overlap to try every picture")
        .help("give the two different displays, or write fewer patterns that overlap");
  }

  private static String words(Twins.Pair pair) {
    return names(List.of(pair.first(), pair.second()));
  }

  private static String names(List<AspectPattern> shown) {
    return Words.quoted(shown, s -> s.aspect().name());
  }

  private static List<String> about(Look look, Stream<AspectPattern> shown) {
    return Stream.concat(look.forms().stream().map(Form::name), shown.map(s -> s.aspect().name()))
        .distinct()
        .toList();
  }

  private static String shows(AspectPattern shown) {
    return "shows \"" + shown.aspect().name() + "\"" + plates(shown.pattern());
  }

  private static String plates(Pattern pattern) {
    return pattern.plates().isEmpty()
        ? ""
        : " with the "
            + Words.list(pattern.plates())
            + " "
            + Words.plural(pattern.plates().size(), "plate");
  }
}
