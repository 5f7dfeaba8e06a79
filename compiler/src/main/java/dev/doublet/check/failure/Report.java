package dev.doublet.check.failure;

import dev.doublet.check.Check;
import dev.doublet.check.PatternTable;
import dev.doublet.check.Words;
import dev.doublet.check.failure.Hazard.Found;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Cover;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Puts hazards into words, the covered ones by what covers them. */
final class Report {
  private static final int MOST = 6;

  private final Check<?> check;
  private final Rulebook book;

  Report(Check<?> check, Rulebook book) {
    this.check = check;
    this.book = book;
  }

  /** How much an uncovered false proceed matters, by what failed. */
  interface Weight {
    Severity of(Fault fault);
  }

  List<Diagnostic> of(List<Hazard> hazards, Weight weight) {
    List<Diagnostic> found = new ArrayList<>();
    Map<Cover, List<Hazard>> covered = new LinkedHashMap<>();
    for (Hazard hazard : hazards) {
      if (hazard.cover().isPresent()) {
        covered.computeIfAbsent(hazard.cover().get(), c -> new ArrayList<>()).add(hazard);
      } else if (hazard.isFalseProceed()) {
        found.add(falseProceed(hazard, severity(hazard, weight)));
      } else {
        found.add(unknown(hazard));
      }
    }
    covered.forEach((cover, its) -> found.add(covered(cover, its)));
    return found;
  }

  private Severity severity(Hazard hazard, Weight weight) {
    Fault fault = hazard.faults().get(0);
    return book.failures().errors().contains(fault) ? Severity.ERROR : weight.of(fault);
  }

  private Diagnostic falseProceed(Hazard hazard, Severity severity) {
    Case first = hazard.first();
    List<String> remedies = new ArrayList<>(Remedies.of(hazard));
    remedies.add("if something covers it in practice, say what: " + cover(hazard));
    Diagnostic said =
        told(
            hazard,
            severity,
            Words.say(
                "on %s, \"%s\" is read as \"%s\" when %s",
                hazard.site().words(),
                first.meant().name(),
                first.worst().aspect().name(),
                first.trial().words()));
    return said.because(
            "a failed lamp or a missing plate must not give a less restrictive aspect than intended (49 CFR 236.23(f))")
        .help(String.join("; or ", remedies));
  }

  private Diagnostic unknown(Hazard hazard) {
    Case first = hazard.first();
    return told(
            hazard,
            Severity.NOTE,
            Words.say(
                "on %s, \"%s\" is read as \"%s\" when %s: not known which permits more",
                hazard.site().words(),
                first.meant().name(),
                first.worst().aspect().name(),
                first.trial().words()))
        .because("the two stand in no order, so nothing is said for either (49 CFR 236.23(f))")
        .help("rank the speeds of the two, if the rulebook does");
  }

  private Diagnostic told(Hazard hazard, Severity severity, String message) {
    Case first = hazard.first();
    Aspect worst = first.worst().aspect();
    Diagnostic said =
        check
            .finding(severity, first.shown().span(), message)
            .label("shows \"" + first.meant().name() + "\"");
    if (!first.worst().pattern().span().equals(first.shown().span())) {
      said = said.related(first.worst().pattern().span(), "reads \"" + worst.name() + "\"");
    }
    said =
        said.fact("meant", permission(first.meant(), words(first)))
            .fact("seen", first.trial().picture() + ", " + reading(hazard))
            .fact("read as", permission(worst, ""));
    return hazard.found().size() == 1 ? said : said.fact("also", others(hazard));
  }

  private static String words(Case one) {
    return PatternTable.words(one.shown().picture());
  }

  private static String permission(Aspect aspect, String picture) {
    return (picture.isEmpty() ? "" : picture + ", ")
        + "\""
        + aspect.name()
        + "\", which allows "
        + aspect.permission().words();
  }

  private String reading(Hazard hazard) {
    if (hazard.first().read().defined()) {
      return "which the book defines";
    }
    Imperfect rule = book.failures().imperfect();
    return "imperfect, read as "
        + (rule == Imperfect.AS_LIT ? "lit without its dark heads" : rule.words());
  }

  private static String others(Hazard hazard) {
    List<Found> rest = hazard.found().subList(1, hazard.found().size());
    List<String> words = new ArrayList<>();
    for (Found found : rest.subList(0, Math.min(MOST, rest.size()))) {
      String where = found.site() == hazard.site() ? "" : "on " + found.site().words() + ", ";
      String picture =
          found.one().shown().picture().equals(hazard.first().shown().picture())
              ? ""
              : words(found.one()) + ": ";
      words.add(where + picture + found.one().trial().words());
    }
    String more = rest.size() > MOST ? "; and " + (rest.size() - MOST) + " more" : "";
    return String.join("; ", words) + more;
  }

  private static String cover(Hazard hazard) {
    return "cover "
        + hazard.faultWords()
        + " on "
        + hazard.site().crew().form().name()
        + " because \"…\"";
  }

  private Diagnostic covered(Cover cover, List<Hazard> hazards) {
    long proceeds = hazards.stream().filter(Hazard::isFalseProceed).count();
    Diagnostic said =
        check
            .finding(
                Severity.NOTE,
                cover.span(),
                "covered: " + Words.count(proceeds, "way") + " to read more than was meant")
            .label("\"" + cover.reason() + "\"");
    for (Hazard hazard : hazards.subList(0, Math.min(MOST, hazards.size()))) {
      Case first = hazard.first();
      said =
          said.fact(
              hazard.faultWords(),
              Words.say(
                  "on %s, \"%s\" is read as \"%s\" when %s%s",
                  hazard.site().words(),
                  first.meant().name(),
                  first.worst().aspect().name(),
                  first.trial().words(),
                  hazard.isFalseProceed() ? "" : " (not known which permits more)"));
    }
    if (hazards.size() > MOST) {
      said = said.fact("and", (hazards.size() - MOST) + " more");
    }
    return said.because("a hazard that is covered is still there when the cover fails")
        .help("nothing, as long as the reason holds");
  }
}
