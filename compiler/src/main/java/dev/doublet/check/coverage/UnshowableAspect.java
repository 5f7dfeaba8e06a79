package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.BuildGroup;
import dev.doublet.facts.Showing;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Pattern;
import java.util.ArrayList;
import java.util.List;

/** An aspect that a signal's heads have no lamps for. */
public final class UnshowableAspect implements Check.OfLayout {

  @Override
  public Tier tier() {
    return Tier.STRUCTURE;
  }

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (BuildGroup built : facts.builds()) {
      List<Aspect> dark = new ArrayList<>();
      for (Aspect aspect : built.build().aspects()) {
        List<Pattern> holding = Showing.holding(facts.layout().rulebook(), built.build(), aspect);
        if (!holding.isEmpty() && holding.stream().noneMatch(p -> showable(built.build(), p))) {
          dark.add(aspect);
        }
      }
      if (!dark.isEmpty()) {
        found.add(report(facts, built, dark));
      }
    }
    return found;
  }

  private static boolean showable(Signal.Build build, Pattern pattern) {
    for (int i = 0; i < build.heads().size(); i++) {
      if (!showable(build.heads().get(i), pattern.choices().get(i))) {
        return false;
      }
    }
    return true;
  }

  private static boolean showable(HeadType head, Choice choice) {
    return choice.isAny()
        || choice.displays().stream().anyMatch(d -> head.lights(d.look()).isPresent());
  }

  private Diagnostic report(LayoutFacts facts, BuildGroup built, List<Aspect> dark) {
    Signal.Build build = built.build();
    Aspect first = dark.get(0);
    Pattern pattern = Showing.holding(facts.layout().rulebook(), build, first).get(0);
    int place = 0;
    while (showable(build.heads().get(place), pattern.choices().get(place))) {
      place++;
    }
    HeadType head = build.heads().get(place);
    Display display = pattern.choices().get(place).shown();
    List<Integer> able = head.lampsShowing(display.look());
    String lack =
        able.isEmpty()
            ? "has no lamp for " + display.look()
            : "shows " + display.look() + " with more than one lamp, and no figure says which";
    Severity severity = build.asked() ? Severity.ERROR : Severity.WARNING;
    return finding(
            severity,
            built.first().span(),
            Words.say("%s cannot show %s", built.words(), Words.quoted(dark, Aspect::name)))
        .about(Words.both(built.names(), dark.stream().map(Aspect::name).toList()))
        .words("signals", built.names())
        .words("aspects", dark.stream().map(Aspect::name).toList())
        .word("head", head.name())
        .word("display", display.words())
        .label(Words.say("its %s head is a %s", build.form().places().get(place), head.name()))
        .related(pattern.span(), "\"" + first.name() + "\" needs " + pattern.words())
        .related(head.span(), Words.say("head %s %s", head.name(), lack))
        .because("a command for an aspect without lamps would leave the crew with another picture")
        .help(
            advice(build, able),
            Datum.of("head", head.name()),
            Datum.of("write", figure(head, display, able)));
  }

  /** The line that says which lamp shows a display; nothing where none can. */
  private static List<String> figure(HeadType head, Display display, List<Integer> able) {
    return able.stream()
        .limit(1)
        .map(i -> "figure " + display.look() + " lights " + head.lamps().get(i).name())
        .toList();
  }

  private static String advice(Signal.Build build, List<Integer> able) {
    if (!able.isEmpty()) {
      return "say which lamp in head {head}: \"{write}\"";
    }
    return build.asked()
        ? "use a head that has the lamp, or take the aspect off this signal's list"
        : "list under \"aspects\" what this signal shows, or use a head that has the lamp";
  }
}
