package dev.doublet.failure;

import dev.doublet.failure.Failure.DieOut;
import dev.doublet.failure.Failure.LampOut;
import dev.doublet.failure.Hazard.Occurrence;
import dev.doublet.failure.Site.AspectPicture;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Figure;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import dev.doublet.rulebook.Lit;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What would remove a hazard. Each way is tried, and named only when every case of it is gone and
 * nothing at any other site is read as permitting more than it was, by a single fault.
 */
public final class Remedies {
  private final Before before;
  private final OtherPicture otherPicture;
  private final Map<Imperfect, Optional<List<Occurrence>>> harmless =
      new EnumMap<>(Imperfect.class);

  public Remedies(List<TrialResult> sites) {
    this.before = new Before(sites);
    this.otherPicture = new OtherPicture(before);
  }

  /** What to do, the least change first; perhaps nothing. */
  public List<Remedy> of(Hazard hazard) {
    List<Remedy> remedies = new ArrayList<>();
    ownLed(hazard).ifPresent(remedies::add);
    twoLamps(hazard).ifPresent(remedies::add);
    otherPicture.byRhythmOrMarker(hazard).ifPresent(remedies::add);
    otherRule(hazard).ifPresent(remedies::add);
    // What a colour means is the last thing that a railway changes.
    if (remedies.isEmpty()) {
      otherPicture.byColourOrFigure(hazard).ifPresent(remedies::add);
    }
    return remedies;
  }

  private static Optional<Remedy> ownLed(Hazard hazard) {
    Set<String> colours = new LinkedHashSet<>();
    for (Occurrence found : hazard.found()) {
      Optional<DieOut> out = first(found, DieOut.class);
      if (out.isEmpty()) {
        return Optional.empty();
      }
      DieOut die = out.get();
      Failure dark = new LampOut(die.head(), die.make(), die.lamp());
      if (!isSafe(found, die, dark)) {
        return Optional.empty();
      }
      String look = found.one().shown().picture().get(die.head()).look();
      die.make().lights(look).orElseThrow().forEach(lit -> colours.add(lit.colour()));
    }
    return Optional.of(new Remedy.OwnLed(List.copyOf(colours)));
  }

  /** A second lamp for the same display: one of the two dark leaves the display. */
  private static Optional<Remedy> twoLamps(Hazard hazard) {
    Set<Remedy.TwoLamps.HeadLook> doubled = new LinkedHashSet<>();
    for (Occurrence found : hazard.found()) {
      Optional<LampOut> out = first(found, LampOut.class);
      if (out.isEmpty()) {
        return Optional.empty();
      }
      LampOut lamp = out.get();
      Display display = found.one().shown().picture().get(lamp.head());
      for (HeadType type : found.site().types(lamp.head(), display)) {
        List<Lit> lit = type.lights(display.look()).orElseThrow();
        if (lit.size() != 1 || type.isArm()) {
          return Optional.empty();
        }
        HeadType pair = pair(type, display.look(), lit.get(0));
        for (Lit one : pair.lights(display.look()).orElseThrow()) {
          Failure dark = new LampOut(lamp.head(), pair, one.lamp());
          if (!isSafe(found, lamp, dark)) {
            return Optional.empty();
          }
        }
      }
      String place = found.site().crew().form().places().get(lamp.head());
      doubled.add(new Remedy.TwoLamps.HeadLook(display.look(), place));
    }
    return Optional.of(new Remedy.TwoLamps(List.copyOf(doubled)));
  }

  private static <F extends Failure> Optional<F> first(Occurrence found, Class<F> kind) {
    return found.one().trial().failures().stream()
        .filter(kind::isInstance)
        .map(kind::cast)
        .findFirst();
  }

  /** True when nothing is misread with another fault in place of one. */
  private static boolean isSafe(Occurrence found, Failure was, Failure now) {
    AspectPicture shown = found.one().shown();
    List<Failure> failures =
        found.one().trial().failures().stream().map(f -> f == was ? now : f).toList();
    Condition whole = found.site().whole(shown.picture());
    return Case.of(shown, Trial.of(whole, failures), found.site().crew()).isSafe();
  }

  private static HeadType pair(HeadType type, String look, Lit lit) {
    List<Lamp> lamps = new ArrayList<>(type.lamps());
    lamps.add(type.lamps().get(lit.lamp()));
    List<Lit> both = List.of(lit, new Lit(lamps.size() - 1, lit.colour(), lit.rhythm()));
    List<Figure> figures = new ArrayList<>(type.figures());
    figures.add(0, new Figure(look, both, type.span()));
    return new HeadType(type.name(), lamps, figures, type.span());
  }

  /** Another rule of the book for imperfect signals, if it makes nothing worse at any signal. */
  private Optional<Remedy> otherRule(Hazard hazard) {
    if (before.isTooMuch()) {
      return Optional.empty();
    }
    for (Imperfect rule : List.of(Imperfect.MOST_RESTRICTIVE_FITTING, Imperfect.MOST_RESTRICTIVE)) {
      boolean safe =
          hazard.found().stream()
              .allMatch(
                  f ->
                      Case.of(f.one().shown(), f.one().trial(), f.site().crew().under(rule))
                          .isSafe());
      if (safe && removes(rule, hazard)) {
        return Optional.of(new Remedy.OtherRule(rule));
      }
    }
    return Optional.empty();
  }

  private boolean removes(Imperfect rule, Hazard hazard) {
    return harmless.computeIfAbsent(rule, this::harmless).stream()
        .anyMatch(otherwise -> !hazard.isSeenIn(otherwise));
  }

  /** Every fault that is read otherwise by a rule; empty when one is then misread that was not. */
  private Optional<List<Occurrence>> harmless(Imperfect rule) {
    List<Occurrence> otherwise =
        before.readOtherwise(
            before.index().all(),
            (crew, sight) -> crew.under(rule).madeOut(sight.seen(), sight.plates()));
    return Optional.of(otherwise).filter(before::knows);
  }
}
