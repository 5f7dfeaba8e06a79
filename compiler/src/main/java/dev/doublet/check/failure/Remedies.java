package dev.doublet.check.failure;

import dev.doublet.check.PatternTable;
import dev.doublet.check.Words;
import dev.doublet.check.failure.Failure.DieOut;
import dev.doublet.check.failure.Failure.LampOut;
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
    Set<String> colours = new LinkedHashSet<>();
    for (Found found : hazard.found()) {
      Optional<DieOut> out = first(found, DieOut.class);
      if (out.isEmpty()) {
        return Optional.empty();
      }
      DieOut die = out.get();
      Failure dark = new LampOut(die.head(), die.place(), die.make(), die.lamp());
      if (!isSafe(found, die, dark)) {
        return Optional.empty();
      }
      String look = found.one().shown().picture().get(die.head()).look();
      die.make().lights(look).orElseThrow().forEach(lit -> colours.add(lit.colour()));
    }
    return Optional.of(
        Words.say(
            "light %s with an LED of its own, not by mixing, so that a dead die leaves it dark",
            Words.list(List.copyOf(colours))));
  }

  /** A second lamp for the same display: one of the two dark leaves the display. */
  private static Optional<String> twoLamps(Hazard hazard) {
    Set<String> doubled = new LinkedHashSet<>();
    for (Found found : hazard.found()) {
      Optional<LampOut> out = first(found, LampOut.class);
      if (out.isEmpty()) {
        return Optional.empty();
      }
      LampOut lamp = out.get();
      Display display = found.one().shown().picture().get(lamp.head());
      for (HeadType type : found.site().types(lamp.head(), display)) {
        List<Lit> lit = type.lights(display.look()).orElseThrow();
        if (lit.size() != 1) {
          return Optional.empty();
        }
        HeadType pair = pair(type, display.look(), lit.get(0));
        for (Lit one : pair.lights(display.look()).orElseThrow()) {
          Failure dark = new LampOut(lamp.head(), lamp.place(), pair, one.lamp());
          if (!isSafe(found, lamp, dark)) {
            return Optional.empty();
          }
        }
      }
      doubled.add(display.look() + " at the " + lamp.place() + " head");
    }
    return Optional.of(
        "light "
            + Words.list(List.copyOf(doubled))
            + " with two lamps at once (a figure of the head)");
  }

  private static <F extends Failure> Optional<F> first(Found found, Class<F> kind) {
    return found.one().trial().failures().stream()
        .filter(kind::isInstance)
        .map(kind::cast)
        .findFirst();
  }

  /** True when nothing is misread with another fault in place of one. */
  private static boolean isSafe(Found found, Failure was, Failure now) {
    Shown shown = found.one().shown();
    List<Failure> failures =
        found.one().trial().failures().stream().map(f -> f == was ? now : f).toList();
    Condition whole = Condition.of(shown.picture(), found.site().plates());
    return Case.of(shown, Trial.of(whole, failures), found.site().crew()).isSafe();
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
    if (hazard.isPair()) {
      return Optional.empty();
    }
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
      if (!isSafe(after, picture, hazard.faults())) {
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

  private static boolean isSafe(Site site, List<Display> picture, List<Fault> faults) {
    Shown shown =
        site.shown().stream().filter(s -> s.picture().equals(picture)).findFirst().orElseThrow();
    return site.trials(picture).stream()
        .filter(t -> t.faults().equals(faults))
        .allMatch(t -> Case.of(shown, t, site.crew()).isSafe());
  }

  private static boolean isSame(Case one, Hazard hazard) {
    return one.meant().name().equals(hazard.first().meant().name())
        && one.trial().faults().equals(hazard.faults());
  }

  private static Set<Object> what(Case one) {
    return Set.of(
        "meant " + one.meant().name(),
        "worst " + one.worst().aspect().name(),
        one.trial().faults());
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
