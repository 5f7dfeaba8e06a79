package dev.doublet.check.failure;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.FaultWords;
import dev.doublet.facts.Patience;
import dev.doublet.failure.Case;
import dev.doublet.failure.Hazard;
import dev.doublet.failure.Pairs;
import dev.doublet.failure.Remedies;
import dev.doublet.failure.Remedy;
import dev.doublet.failure.Site;
import dev.doublet.failure.TrialResult;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Cover;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Proviso;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Puts hazards into words, the covered ones by what covers them. */
final class Report {
  private static final int MOST = 6;

  /** Of so many it is worked out what would mend them: twice as many as are printed. */
  private static final int MOST_MENDED = 60;

  private final Check<?> check;
  private final Rulebook book;
  private final Weight weight;

  Report(Check<?> check, Rulebook book, Weight weight) {
    this.check = check;
    this.book = book;
    this.weight = weight;
  }

  /** How much an uncovered false proceed matters, by what failed. */
  interface Weight {
    Severity of(Fault fault);
  }

  /** The hazards of some sites, of single faults and of pairs if they are asked for. */
  List<Diagnostic> of(List<Site> sites, CheckOptions asked) {
    return of(sites, asked, Pairs.MOST_STEPS);
  }

  /** The same with pairs tried in no more than so many steps. */
  List<Diagnostic> of(List<Site> sites, CheckOptions asked, long steps) {
    List<TrialResult> singly = TrialResult.singly(sites);
    Remedies remedies = new Remedies(singly);
    List<Hazard> hazards = Hazard.of(singly);
    List<Diagnostic> found = new ArrayList<>(of(hazards, remedies, asked));
    if (book.failures().imperfect() == Imperfect.UNSAID) {
      new UnsaidRule(check, book, this::severity).of(sites, hazards).ifPresent(found::add);
    }
    if (asked.notes() || severity(Fault.DIE_STUCK) != Severity.NOTE) {
      found.addAll(
          of(Hazard.of(sites.stream().map(TrialResult::stuckDies).toList()), remedies, asked));
    }
    if (asked.pairs()) {
      List<TrialResult> pairs = Pairs.on(sites, steps);
      found.addAll(of(Hazard.of(pairs), remedies, asked));
      pairs.stream().filter(p -> p.untried() > 0).forEach(p -> found.add(untried(p)));
    }
    return found;
  }

  private List<Diagnostic> of(List<Hazard> hazards, Remedies remedies, CheckOptions asked) {
    List<Diagnostic> found = new ArrayList<>();
    Map<Cover, List<Hazard>> covered = new LinkedHashMap<>();
    Map<Cause, List<Hazard>> together = new LinkedHashMap<>();
    Set<Hazard> first = first(hazards);
    for (Hazard hazard : hazards) {
      Patience.ask();
      if (hazard.cover().isPresent()) {
        covered.computeIfAbsent(hazard.cover().get(), c -> new ArrayList<>()).add(hazard);
      } else if (Cause.of(hazard).isPresent()) {
        together.computeIfAbsent(Cause.of(hazard).get(), c -> new ArrayList<>()).add(hazard);
      } else if (hazard.isFalseProceed()) {
        boolean mended = first.contains(hazard);
        found.add(falseProceed(hazard, mended ? remedies.of(hazard) : List.of(), mended));
      } else if (asked.notes()) {
        found.add(unknown(hazard));
      }
    }
    together.forEach((cause, its) -> found.add(together(cause, its, remedies)));
    if (asked.notes()) {
      covered.forEach((cover, its) -> found.add(covered(cover, its)));
    }
    return found;
  }

  /** What has one cause is told at once, however much comes of it. */
  private Diagnostic together(Cause cause, List<Hazard> hazards, Remedies remedies) {
    Severity worst =
        hazards.stream()
            .map(h -> h.isFalseProceed() ? severity(h) : Severity.NOTE)
            .min(Comparator.naturalOrder())
            .orElseThrow();
    Diagnostic said =
        check
            .finding(
                worst,
                hazards.get(0).first().shown().span(),
                cause.message(hazards.get(0))
                    + (hazards.get(0).isPair() ? " when two things fail at once" : ""))
            .label(cause.label())
            .word("site", FaultWords.site(hazards.get(0).site()))
            .word("part", cause.part())
            .words("aspects", cause.aspects(hazards).stream().map(Aspect::name).toList());
    for (Hazard hazard : hazards) {
      said = said.fact(FaultWords.kinds(hazard), HazardWords.brief(hazard));
    }
    List<String> orders =
        new ArrayList<>(
            cause.order(book).map(List::of).orElseGet(() -> mending(hazards, remedies)));
    orders.add("if something covers a fault in practice, say what: " + cover(hazards.get(0)));
    return said.because(cause.reason()).ways(orders);
  }

  /** What would mend all of some hazards. */
  private static List<String> mending(List<Hazard> hazards, Remedies remedies) {
    if (hazards.size() > MOST_MENDED) {
      return List.of();
    }
    List<Remedy> all = new ArrayList<>(remedies.of(hazards.get(0)));
    for (int i = 1; i < hazards.size() && !all.isEmpty(); i++) {
      all.retainAll(remedies.of(hazards.get(i)));
    }
    return all.stream().map(FaultWords::order).toList();
  }

  /** A failed lamp must not mislead; that two things fail at once is a matter of care. */
  private Severity severity(Hazard hazard) {
    if (hazard.isPair()) {
      return Severity.WARNING;
    }
    return severity(hazard.faults().get(0));
  }

  private Severity severity(Fault fault) {
    return book.failures().errors().contains(fault) ? Severity.ERROR : weight.of(fault);
  }

  /** Those that a person reads first: the gravest, in the order of the book. */
  private Set<Hazard> first(List<Hazard> hazards) {
    Set<Hazard> first = Collections.newSetFromMap(new IdentityHashMap<>());
    hazards.stream()
        .filter(h -> h.cover().isEmpty() && h.isFalseProceed())
        .sorted(
            Comparator.comparing((Hazard h) -> severity(h))
                .thenComparing(h -> h.first().shown().span()))
        .limit(MOST_MENDED)
        .forEach(first::add);
    return first;
  }

  private Diagnostic falseProceed(Hazard hazard, List<Remedy> remedies, boolean mended) {
    Case first = hazard.first();
    List<String> orders = new ArrayList<>(remedies.stream().map(FaultWords::order).toList());
    if (!mended) {
      orders.add(
          Words.say(
              "mend others first: what would mend them is worked out for the first %,d",
              MOST_MENDED));
    }
    orders.add(
        Words.say(
            "if something covers %s in practice, say what: %s",
            hazard.isPair() ? "one of the two" : "it", cover(hazard)));
    Diagnostic said =
        told(
            hazard,
            severity(hazard),
            Words.say(
                "on %s, \"%s\" is read as \"%s\" when %s",
                FaultWords.site(hazard.site()),
                first.meant().name(),
                first.worst().aspect().name(),
                FaultWords.failed(hazard.site(), first.trial())));
    return said.fact("more", HazardWords.more(first))
        .because(
            "a failed lamp or a missing plate must not give a less restrictive aspect than intended"
                + (hazard.isPair() ? "; two at once are asked for here" : ""),
            "49 CFR 236.23(f)")
        .ways(orders);
  }

  private Diagnostic unknown(Hazard hazard) {
    Case first = hazard.first();
    Set<String> unranked = HazardWords.unranked(first);
    Diagnostic said =
        told(
            hazard,
            Severity.NOTE,
            Words.say(
                "on %s, \"%s\" is read as \"%s\" when %s: %s",
                FaultWords.site(hazard.site()),
                first.meant().name(),
                first.worst().aspect().name(),
                FaultWords.failed(hazard.site(), first.trial()),
                HazardWords.why(first)));
    return unranked.isEmpty()
        ? said.because("the next signal speaks of the second again, before a train is there")
            .help("nothing, as long as the next signal does")
        : said.because(
                Words.say(
                    "the rulebook does not rank %s, so nothing is said for either",
                    Words.list(List.copyOf(unranked))))
            .help("give the speed a figure, if the rulebook does");
  }

  private Diagnostic told(Hazard hazard, Severity severity, String message) {
    Case first = hazard.first();
    Aspect worst = first.worst().aspect();
    Diagnostic said =
        check
            .finding(severity, first.shown().span(), message)
            .label("shows \"" + first.meant().name() + "\"")
            .word("site", FaultWords.site(hazard.site()))
            .word("form", hazard.site().crew().form().name())
            .words("plates", hazard.site().plates())
            .word("meant", first.meant().name())
            .word("read as", worst.name())
            .words("faults", hazard.faults().stream().map(Fault::words).toList())
            .word("failed", FaultWords.failed(hazard.site(), first.trial()))
            .words("picture", first.shown().picture().stream().map(Display::words).toList())
            .word("seen", FaultWords.seen(first.trial()))
            .number("cases", hazard.found().size(), "case");
    if (!first.worst().pattern().span().equals(first.shown().span())) {
      said = said.related(first.worst().pattern().span(), "reads \"" + worst.name() + "\"");
    }
    said =
        said.fact("meant", permission(first.meant(), HazardWords.words(first)))
            .fact("seen", FaultWords.seen(first.trial()) + ", " + reading(hazard))
            .fact("read as", permission(worst, ""));
    return hazard.found().size() == 1 ? said : said.fact("also", HazardWords.others(hazard, MOST));
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
    Optional<Proviso> proviso = hazard.site().crew().proviso(hazard.first().trial().seen());
    if (proviso.isPresent()) {
      return "imperfect, read as " + proviso.get().words();
    }
    return "imperfect, read as "
        + switch (rule) {
          case UNSAID -> Imperfect.MOST_RESTRICTIVE.words();
          case AS_LIT -> "lit, as if its dark heads were not there";
          case ANY_FITTING -> "any aspect that fits what is lit";
          case MOST_RESTRICTIVE_FITTING -> "the most restrictive aspect that fits what is lit";
          case MOST_RESTRICTIVE -> "the most restrictive aspect of the signal";
        };
  }

  private static String cover(Hazard hazard) {
    return "cover "
        + hazard.faults().get(0).words()
        + " on "
        + hazard.site().crew().form().name()
        + " because \"…\"";
  }

  private Diagnostic untried(TrialResult tried) {
    return check
        .finding(
            Severity.WARNING,
            tried.site().shown().get(0).span(),
            Words.say(
                "on %s, %s of faults %s not tried: there are too many",
                FaultWords.site(tried.site()),
                Words.count(tried.untried(), "pair"),
                tried.untried() == 1 ? "was" : "were"))
        .word("site", FaultWords.site(tried.site()))
        .number("untried", tried.untried(), "pair")
        .because("what was not tried may permit more than was meant")
        .help(
            "check fewer kinds of signal at a time, in a layout of their own: all of a layout share the pairs that are tried");
  }

  private Diagnostic covered(Cover cover, List<Hazard> hazards) {
    long proceeds = hazards.stream().filter(Hazard::isFalseProceed).count();
    Diagnostic said =
        check
            .finding(
                Severity.NOTE,
                cover.span(),
                "covered: "
                    + Words.count(proceeds, "way")
                    + " to read more than was meant"
                    + (hazards.get(0).isPair() ? " when two things fail at once" : ""))
            .label("\"" + cover.reason() + "\"")
            .word("reason", cover.reason())
            .number("ways", proceeds, "way");
    for (Hazard hazard : hazards) {
      said = said.fact(FaultWords.kinds(hazard), HazardWords.all(hazard));
    }
    return said.because("a hazard that is covered is still there when the cover fails")
        .help("nothing, as long as the reason holds");
  }
}
