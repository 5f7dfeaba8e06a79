package dev.doublet.check.budget;

import dev.doublet.colour.Filament;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.Alike;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * The shortest change that must be seen on a chain: the fastest of its rhythms, or how its lamps
 * change.
 *
 * @param millis how long the shortest part of it lasts
 * @param words what that is, after "too long for"
 * @param span where it is said
 * @param label what it is, there
 * @param why what goes wrong when a chain is too slow
 */
public record ShortestChange(int millis, String words, Span span, String label, String why) {
  /**
   * A flash lasts at least this many refreshes, so that its length is off by a quarter at most, and
   * a fade takes as many steps; a choice of ours.
   */
  static final int REFRESHES = 4;

  /** A lamp has gone out for the eye when so much of its light is left; a choice of ours. */
  private static final double OUT = 0.1;

  /** Milliseconds for which a swinging vane shows its middle colour. */
  private static final int MIDDLE = Glow.SWING / 3;

  /** That of each chain that has one. */
  static Map<Chain, ShortestChange> ofChains(LayoutFacts facts) {
    Map<Chain, ShortestChange> fastest = new IdentityHashMap<>();
    Rulebook book = facts.layout().rulebook();
    for (Alike alike : facts.kinds()) {
      Map<Part, Optional<ShortestChange>> needs = new IdentityHashMap<>();
      for (Unit unit : alike.units()) {
        needs
            .computeIfAbsent(unit.chain().part(), part -> fastestOf(book, alike.kind(), part))
            .ifPresent(need -> fastest.merge(unit.chain(), need, ShortestChange::shorter));
      }
    }
    return fastest;
  }

  /** Milliseconds in which one refresh must be done. */
  double perRefresh() {
    return millis / (double) REFRESHES;
  }

  /** The shorter of two; this one where they last as long. */
  ShortestChange shorter(ShortestChange other) {
    return millis <= other.millis ? this : other;
  }

  /**
   * What a kind needs on LEDs of a part: the fastest of its rhythms, and of how its lamps change.
   */
  private static Optional<ShortestChange> fastestOf(Rulebook book, Kind kind, Part part) {
    Map<String, Rhythm> used = new TreeMap<>();
    kind.states()
        .forEach(
            s ->
                s.lit()
                    .forEach(d -> book.rhythm(d.rhythm()).ifPresent(r -> used.put(r.name(), r))));
    List<ShortestChange> needs = new ArrayList<>();
    used.values().forEach(r -> needs.add(flash(r)));
    Set<String> passed = new TreeSet<>();
    kind.passedOn(part).forEach(passed::addAll);
    for (HeadType head : book.heads()) {
      if (kind.heads().contains(head.name()) && !kind.glows().isEmpty()) {
        change(head, passed).ifPresent(needs::add);
      }
    }
    return needs.stream().min(Comparator.comparingInt(ShortestChange::millis));
  }

  private static ShortestChange flash(Rhythm rhythm) {
    int lit = rhythm.litMillis();
    int shortest = Math.min(lit, rhythm.periodMillis() - lit);
    return new ShortestChange(
        shortest,
        Words.say("%s, which lasts %d ms", rhythm.name(), shortest),
        rhythm.span(),
        "the fastest rhythm on it",
        "a flash must last at least four refreshes, or its length wavers by more than a quarter");
  }

  private static Optional<ShortestChange> change(HeadType head, Set<String> passed) {
    if (head.filament()) {
      int fade = fade();
      return Optional.of(
          new ShortestChange(
              fade,
              Words.say("lamps that glow, which lose nine tenths of their light in %d ms", fade),
              head.span(),
              "its lamps glow",
              "a fade in fewer than four refreshes is seen as steps, where a firmware shows fades"));
    }
    return passed.contains(head.vane())
        ? Optional.of(
            new ShortestChange(
                MIDDLE,
                Words.say("a vane, which shows its middle colour for %d ms", MIDDLE),
                head.span(),
                "its vane swings",
                "a colour that is passed must last at least four refreshes, or its length wavers by"
                    + " more than a quarter"))
        : Optional.empty();
  }

  /**
   * Milliseconds until a lamp has gone out; to come on takes longer. Worked out only where a lamp
   * glows, as it takes the curve of a filament.
   */
  public static int fade() {
    int millis = 0;
    while (Filament.fall(millis) > OUT) {
      millis++;
    }
    return millis;
  }
}
