package dev.doublet.check.colour;

import dev.doublet.check.Check;
import dev.doublet.check.LayoutFacts;
import dev.doublet.check.Words;
import dev.doublet.colour.Eye;
import dev.doublet.colour.Seeing;
import dev.doublet.colour.Xyz;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.layout.Layout;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;

/** Two colours that tell aspects apart and look too much alike. */
public final class ColoursTooClose implements Check.OfLayout {

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Set<Eye> counting = counting(facts.layout());
    List<Diagnostic> found = new ArrayList<>();
    for (Glow glow : Glow.all(facts)) {
      Map<String, Xyz> lights = glow.lights();
      for (Contrast contrast : contrasts(glow)) {
        Map<Eye, Double> apart = apart(contrast, lights);
        severity(apart, counting)
            .map(severity -> report(glow, contrast, apart, severity, counting))
            .ifPresent(found::add);
      }
    }
    return found;
  }

  /** The eyes that must be able to tell: small lamps leave nobody short-wave cones. */
  private static Set<Eye> counting(Layout layout) {
    Set<Eye> eyes = EnumSet.of(Eye.NORMAL);
    eyes.addAll(layout.viewing().eyes());
    double lens = Seeing.LENS / layout.scale();
    if (Seeing.angle(lens, layout.viewing().metres() * 1000) < Seeing.TRITAN_BELOW) {
      eyes.add(Eye.TRITAN);
    }
    return eyes;
  }

  /**
   * Two states of a unit that nothing but colours tells apart.
   *
   * @param pairs the colours that stand in each other's place, each pair in order
   */
  private record Contrast(SortedSet<String> pairs, Unit unit, State one, State other) {}

  private static List<Contrast> contrasts(Glow glow) {
    Map<String, Contrast> contrasts = new TreeMap<>();
    for (Unit unit : glow.units()) {
      List<State> states = unit.kind().states();
      for (int i = 0; i < states.size(); i++) {
        for (State other : states.subList(i + 1, states.size())) {
          SortedSet<String> pairs = pairs(states.get(i).lit(), other.lit());
          if (!pairs.isEmpty()) {
            contrasts.putIfAbsent(
                pairs.toString(), new Contrast(pairs, unit, states.get(i), other));
          }
        }
      }
    }
    return contrasts.values().stream()
        .filter(
            c ->
                contrasts.values().stream()
                    .noneMatch(
                        o -> o.pairs.size() < c.pairs.size() && c.pairs.containsAll(o.pairs)))
        .toList();
  }

  /** The pairs of colours; none when a lamp is dark in one or flashes otherwise. */
  private static SortedSet<String> pairs(List<Display> one, List<Display> other) {
    SortedSet<String> pairs = new TreeSet<>();
    for (int led = 0; led < one.size(); led++) {
      Display a = one.get(led);
      Display b = other.get(led);
      boolean dark = a.equals(Display.DARK) != b.equals(Display.DARK);
      if (dark || !a.rhythm().equals(b.rhythm())) {
        return new TreeSet<>();
      }
      if (!a.look().equals(b.look())) {
        boolean inOrder = a.look().compareTo(b.look()) < 0;
        pairs.add(inOrder ? a.look() + " and " + b.look() : b.look() + " and " + a.look());
      }
    }
    return pairs;
  }

  /** How far apart the two are to each kind of eyes, by the lamp that tells most. */
  private static Map<Eye, Double> apart(Contrast contrast, Map<String, Xyz> lights) {
    Map<Eye, Double> apart = new EnumMap<>(Eye.class);
    for (Eye eye : Eye.values()) {
      double most = 0;
      for (int led = 0; led < contrast.one.lit().size(); led++) {
        Display a = contrast.one.lit().get(led);
        Display b = contrast.other.lit().get(led);
        if (!a.look().equals(b.look())) {
          Xyz first = lights.get(a.look());
          Xyz second = lights.get(b.look());
          most = Math.max(most, eye.difference(first.chromaticity(), second.chromaticity()));
        }
      }
      apart.put(eye, most);
    }
    return apart;
  }

  /** Empty when every kind of eyes can tell. */
  private static Optional<Severity> severity(Map<Eye, Double> apart, Set<Eye> counting) {
    return apart.entrySet().stream()
        .filter(entry -> entry.getValue() < Seeing.APART)
        .map(
            entry ->
                !counting.contains(entry.getKey())
                    ? Severity.NOTE
                    : entry.getValue() < Seeing.SAME ? Severity.ERROR : Severity.WARNING)
        .min(Comparator.naturalOrder());
  }

  private Diagnostic report(
      Glow glow, Contrast contrast, Map<Eye, Double> apart, Severity severity, Set<Eye> counting) {
    boolean note = severity == Severity.NOTE;
    List<String> eyes = new ArrayList<>();
    List<String> figures = new ArrayList<>();
    apart.forEach(
        (eye, difference) -> {
          if (difference < Seeing.APART && (note || counting.contains(eye))) {
            eyes.add(word(eye));
          }
          figures.add(Words.say("%.4f to %s eyes", difference, word(eye)));
        });
    String colours = Words.list(List.copyOf(contrast.pairs));
    boolean same = severity == Severity.ERROR;
    return finding(
            severity,
            contrast.unit.span(),
            Words.say(
                "%s on %s look %s to %s eyes",
                colours, glow.words(), same ? "the same" : "much alike", Words.list(eyes)))
        .fact(
            "tell apart",
            Words.say("\"%s\" and \"%s\"", contrast.one.name(), contrast.other.name()))
        .fact("differ in u'v' by", Words.list(figures))
        .because(
            Words.say(
                "colours less than %s apart are hard to tell and less than %s look the same (after SAE J578's seven steps); simulated by Brettel, Vienot and Mollon 1997",
                Seeing.APART, Seeing.SAME))
        .help(
            note
                ? "nothing, unless such eyes are to read these signals: then give the colours different lamps or rhythms, and say \"eyes\""
                : "change one of the two colours, show them with different lamps, or let one flash");
  }

  private static String word(Eye eye) {
    return switch (eye) {
      case NORMAL -> "normal";
      case PROTAN -> "protan";
      case DEUTAN -> "deutan";
      case TRITAN -> "tritan";
    };
  }
}
