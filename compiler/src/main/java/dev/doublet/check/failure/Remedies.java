package dev.doublet.check.failure;

import dev.doublet.check.PatternTable;
import dev.doublet.check.Words;
import dev.doublet.check.failure.Hazard.Found;
import dev.doublet.check.failure.Site.Shown;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Figure;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import dev.doublet.rulebook.Lit;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** What would remove a hazard; each way is tried, and named only when every case of it is gone. */
final class Remedies {
  private Remedies() {}

  /** What to do, as orders, the least change first; perhaps nothing. */
  static List<String> of(Hazard hazard) {
    List<String> remedies = new ArrayList<>();
    ownLed(hazard).ifPresent(remedies::add);
    twoLamps(hazard).ifPresent(remedies::add);
    otherPattern(hazard).ifPresent(remedies::add);
    otherRule(hazard).ifPresent(remedies::add);
    return remedies;
  }

  /** With a die for a whole LED, no colour can lose half of its light: it goes dark instead. */
  private static Optional<String> ownLed(Hazard hazard) {
    if (hazard.fault() != Fault.DIE_OUT) {
      return Optional.empty();
    }
    for (Found found : hazard.found()) {
      Shown shown = found.one().shown();
      int head = found.one().trial().head();
      for (Trial trial : found.site().lampsOut(shown.picture())) {
        if (trial.head() == head && !Case.of(shown, trial, found.site().crew()).isSafe()) {
          return Optional.empty();
        }
      }
    }
    Case first = hazard.first();
    int head = first.trial().head();
    Display display = first.shown().picture().get(head);
    List<String> colours =
        hazard.site().heads().get(head).lights(display.look()).orElseThrow().stream()
            .map(Lit::colour)
            .distinct()
            .toList();
    return Optional.of(
        Words.say(
            "light %s with an LED of its own, not by mixing, so that a dead die leaves it dark",
            Words.list(colours)));
  }

  /** A second lamp for the same display: one of the two dark leaves the display. */
  private static Optional<String> twoLamps(Hazard hazard) {
    if (hazard.fault() != Fault.LAMP_OUT) {
      return Optional.empty();
    }
    Set<String> doubled = new LinkedHashSet<>();
    for (Found found : hazard.found()) {
      Shown shown = found.one().shown();
      int head = found.one().trial().head();
      Display display = shown.picture().get(head);
      for (HeadType type : found.site().types(head, display)) {
        List<Lit> lit = type.lights(display.look()).orElseThrow();
        if (lit.size() != 1) {
          return Optional.empty();
        }
        HeadType pair = pair(type, display.look(), lit.get(0));
        for (Trial trial : found.site().whole(shown.picture()).lampsOut(head, pair)) {
          if (!Case.of(shown, trial, found.site().crew()).isSafe()) {
            return Optional.empty();
          }
        }
      }
      doubled.add(
          display.look() + " at the " + found.site().crew().form().places().get(head) + " head");
    }
    return Optional.of(
        "light "
            + Words.list(List.copyOf(doubled))
            + " with two lamps at once (a figure of the head)");
  }

  private static HeadType pair(HeadType type, String look, Lit lit) {
    List<Lamp> lamps = new ArrayList<>(type.lamps());
    lamps.add(type.lamps().get(lit.lamp()));
    List<Lit> both = List.of(lit, new Lit(lamps.size() - 1, lit.colour()));
    List<Figure> figures = new ArrayList<>(type.figures());
    figures.add(0, new Figure(look, both, type.span()));
    return new HeadType(type.name(), lamps, figures, type.span());
  }

  /** Another rule of the book for imperfect signals. */
  private static Optional<String> otherRule(Hazard hazard) {
    for (Imperfect rule : List.of(Imperfect.MOST_RESTRICTIVE_FITTING, Imperfect.MOST_RESTRICTIVE)) {
      boolean safe =
          hazard.found().stream()
              .allMatch(
                  f ->
                      Case.of(f.one().shown(), f.one().trial(), f.site().crew().under(rule))
                          .isSafe());
      if (safe) {
        return Optional.of(
            "if crews are taught so, write: imperfect signals read as " + rule.words());
      }
    }
    return Optional.empty();
  }

  /** Another rhythm at one head, or on a dark one a marker as in the most restrictive aspect. */
  private static Optional<String> otherPattern(Hazard hazard) {
    Site site = hazard.site();
    Shown shown = hazard.first().shown();
    Set<Shown> changed = new HashSet<>();
    hazard.found().forEach(f -> changed.add(f.one().shown()));
    if (changed.size() > 1 || !hazard.found().stream().allMatch(f -> f.site() == site)) {
      return Optional.empty();
    }
    Set<Set<Object>> before = new HashSet<>();
    for (List<Display> picture : variants(site, shown)) {
      Site after = with(site, shown, picture);
      if (!isSafe(after, picture, hazard.fault())) {
        continue;
      }
      if (before.isEmpty()) {
        site.cases().stream().filter(c -> !c.isSafe()).forEach(c -> before.add(what(c)));
      }
      boolean better =
          after.cases().stream()
              .filter(c -> !c.isSafe())
              .allMatch(c -> before.contains(what(c)) && !isSame(c, hazard));
      if (better) {
        return Optional.of("show it as " + PatternTable.words(picture));
      }
    }
    return Optional.empty();
  }

  private static boolean isSafe(Site site, List<Display> picture, Fault fault) {
    Shown shown =
        site.shown().stream().filter(s -> s.picture().equals(picture)).findFirst().orElseThrow();
    return site.trials(picture).stream()
        .filter(t -> t.fault() == fault)
        .allMatch(t -> Case.of(shown, t, site.crew()).isSafe());
  }

  private static boolean isSame(Case one, Hazard hazard) {
    return one.meant().name().equals(hazard.first().meant().name())
        && one.trial().fault() == hazard.fault();
  }

  private static Set<Object> what(Case one) {
    return Set.of(
        "meant " + one.meant().name(), "worst " + one.worst().aspect().name(), one.trial().fault());
  }

  /** Pictures that differ at one head, mean nothing yet, and that the heads can show. */
  private static List<List<Display>> variants(Site site, Shown shown) {
    Rulebook book = site.crew().book();
    List<List<Display>> variants = new ArrayList<>();
    for (int head = 0; head < shown.picture().size(); head++) {
      Display present = shown.picture().get(head);
      Set<Display> others = new LinkedHashSet<>();
      if (present.equals(Display.DARK)) {
        others.addAll(marker(site, head));
      } else {
        others.add(Display.steady(present.look()));
        book.rhythms().forEach(r -> others.add(new Display(present.look(), r.name())));
      }
      for (Display other : others) {
        List<Display> picture = new ArrayList<>(shown.picture());
        picture.set(head, other);
        boolean able = site.types(head, other).get(0).lights(other.look()).isPresent();
        boolean free = Reading.of(site.crew().patterns(), site.plates(), picture).isEmpty();
        if (able && free) {
          variants.add(picture);
        }
      }
    }
    return variants;
  }

  private static List<Display> marker(Site site, int head) {
    return Rulebook.mostRestrictive(site.shown().stream().map(Shown::aspect).toList()).stream()
        .flatMap(a -> site.shown().stream().filter(s -> s.aspect().equals(a)).limit(1))
        .map(s -> s.picture().get(head))
        .filter(d -> !d.equals(Display.DARK))
        .toList();
  }

  /** The same site in a rulebook that shows one aspect otherwise. */
  private static Site with(Site site, Shown old, List<Display> picture) {
    Pattern was = old.by().pattern();
    List<Choice> choices = picture.stream().map(d -> new Choice(List.of(d), was.span())).toList();
    Pattern now = new Pattern(was.form(), was.plates(), choices, was.span());
    Aspect aspect = old.aspect();
    List<Pattern> patterns = new ArrayList<>(aspect.patterns());
    patterns.replaceAll(p -> p == was ? now : p);
    Aspect changed = aspect.with(patterns);
    List<Shown> shown = new ArrayList<>();
    for (Shown one : site.shown()) {
      if (!one.aspect().equals(aspect)) {
        shown.add(one);
      } else if (one.by().pattern() == was) {
        shown.add(new Shown(new Reads(changed, now), picture, one.span()));
      } else {
        shown.add(new Shown(new Reads(changed, one.by().pattern()), one.picture(), one.span()));
      }
    }
    Rulebook book = site.crew().book().with(changed);
    Crew crew =
        Crew.of(
            book,
            site.crew().rule(),
            site.crew().form(),
            shown.stream().map(Shown::by).distinct().toList());
    return new Site(
        site.words(), crew, site.plates(), site.heads(), site.wired(), site.dies(), shown);
  }
}
