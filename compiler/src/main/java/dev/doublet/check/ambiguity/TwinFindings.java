package dev.doublet.check.ambiguity;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts.AspectPattern;
import dev.doublet.facts.BookFacts.Look;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;
import java.util.stream.Stream;

/**
 * Says of aspects that share pictures what is the same by day and by night.
 *
 * @param check whose findings they are
 * @param severity how bad it is that they do
 * @param alike "look alike", and when
 */
record TwinFindings(Check.OfBook check, Severity severity, String alike) {
  private static final int MOST_PLACES = 6;
  private static final int MOST_PAIRS = 10;

  /**
   * A finding a picture, and one each for pictures beyond those and for what is not known.
   *
   * @param reason adds to the finding of a picture why it matters and what to do
   */
  List<Diagnostic> of(
      Look look, Twins twins, BiFunction<Diagnostic, Twins.Picture, Diagnostic> reason) {
    List<Diagnostic> found = new ArrayList<>();
    twins.pictures().forEach(p -> found.add(reason.apply(picture(look, p), p)));
    if (twins.more() > 0) {
      found.add(more(look, twins));
    }
    if (!twins.untried().isEmpty()) {
      found.add(notKnown(look, twins.untried()));
    }
    return found;
  }

  private Diagnostic picture(Look look, Twins.Picture twins) {
    List<AspectPattern> shown = twins.shown();
    Diagnostic finding =
        check
            .finding(
                severity,
                shown.get(0).pattern().span(),
                Words.say("%s %s on %s", names(shown), alike, look.words()))
            .about(about(look, shown.stream()))
            .label(shows(shown.get(0)))
            .words("forms", forms(look))
            .words("aspects", shown.stream().map(s -> s.aspect().name()).toList())
            .words("picture", twins.picture().stream().map(Display::words).toList())
            .fact(shown.size() == 2 ? "both show" : "all show", Display.over(twins.picture()));
    for (AspectPattern one : shown.subList(1, Math.min(MOST_PLACES, shown.size()))) {
      finding = finding.related(one.pattern().span(), shows(one));
    }
    if (shown.size() > MOST_PLACES) {
      finding = finding.fact("not shown", (shown.size() - MOST_PLACES) + " more patterns");
    }
    return finding;
  }

  private Diagnostic more(Look look, Twins twins) {
    AspectPattern first = twins.pictures().get(0).shown().get(0);
    return check
        .finding(
            severity,
            first.pattern().span(),
            Words.say("%,d more pairs of patterns %s on %s", twins.more(), alike, look.words()))
        .about(about(look, Stream.of()))
        .words("forms", forms(look))
        .number("more", twins.more(), "pair")
        .because(Words.say("of one form, at most %,d pictures are told", Twins.MOST_PICTURES))
        .help("mend what is told, and check again");
  }

  private Diagnostic notKnown(Look look, List<Twins.Pair> pairs) {
    Twins.Pair pair = pairs.get(0);
    Diagnostic finding =
        check
            .finding(
                Severity.WARNING,
                pair.first().pattern().span(),
                Words.say(
                    "it takes too long to tell whether %s %s on %s",
                    words(pair), alike, look.words()))
            .about(about(look, pairs.stream().flatMap(p -> Stream.of(p.first(), p.second()))))
            .label(shows(pair.first()))
            .related(pair.second().pattern().span(), shows(pair.second()))
            .words("forms", forms(look))
            .words("aspects", List.of(pair.first().aspect().name(), pair.second().aspect().name()));
    if (pairs.size() > 1) {
      List<String> others =
          pairs.stream().skip(1).limit(MOST_PAIRS).map(TwinFindings::words).toList();
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

  /** The aspects' names, quoted. */
  static String names(List<AspectPattern> shown) {
    return Words.quoted(shown, s -> s.aspect().name());
  }

  private static List<String> forms(Look look) {
    return look.forms().stream().map(Form::name).toList();
  }

  private static List<String> about(Look look, Stream<AspectPattern> shown) {
    return Stream.concat(forms(look).stream(), shown.map(s -> s.aspect().name()))
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
