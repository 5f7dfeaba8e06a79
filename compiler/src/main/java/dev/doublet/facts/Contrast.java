package dev.doublet.facts;

import dev.doublet.colour.Eye;
import dev.doublet.colour.Xyz;
import dev.doublet.layout.Brightness;
import dev.doublet.layout.Chip;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Signal;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Two states of a unit that nothing but colours tells apart.
 *
 * @param glow the LEDs that show them
 * @param at the unit
 * @param pairs what stands in each other's place, by its words; at least one
 * @param merged true when lamps would tell the two apart by their place, if they were not seen as
 *     one
 */
public record Contrast(
    LedGroup glow,
    LedGroup.Standing at,
    State one,
    State other,
    TreeMap<String, Pair> pairs,
    boolean merged) {

  /** Colours that stand in each other's place: one each, or several where lamps are seen as one. */
  private record Pair(List<Hue> one, List<Hue> other) {

    /** "green and red"; "green and red with yellow" where red and yellow are seen as one. */
    String words() {
      String first = String.join(" with ", colours(one));
      String second = String.join(" with ", colours(other));
      return first.compareTo(second) < 0 ? first + " and " + second : second + " and " + first;
    }
  }

  /**
   * A colour of a lamp.
   *
   * @param chipOrNull the chip that lights the lamp; null for an LED
   */
  private record Hue(String colour, Brightness at, Chip chipOrNull) {}

  private static TreeSet<String> colours(List<Hue> hues) {
    return hues.stream().map(Hue::colour).collect(Collectors.toCollection(TreeSet::new));
  }

  /**
   * Those that LEDs have to show, each set of colours once; none that holds all of another's, since
   * what tells that one apart tells it apart too. Smaller lamps go first, since more eyes count for
   * them, and of those, what no lamps farther apart would mend.
   */
  public static List<Contrast> of(LedGroup glow) {
    List<Contrast> all = new ArrayList<>();
    glow.standing().stream()
        .filter(at -> at.isHomeAt(glow.brightness()))
        .forEach(at -> all.addAll(of(glow, at)));
    all.removeIf(c -> !c.isKnown());
    all.sort(Comparator.comparing((Contrast c) -> !c.isTritan()).thenComparing(Contrast::merged));
    Map<Set<String>, Contrast> contrasts = new LinkedHashMap<>();
    all.forEach(c -> contrasts.putIfAbsent(c.pairs.keySet(), c));
    return contrasts.values().stream()
        .filter(c -> contrasts.values().stream().noneMatch(c::holdsMoreThan))
        .sorted(Comparator.comparing(c -> c.pairs.keySet().toString()))
        .toList();
  }

  private boolean holdsMoreThan(Contrast other) {
    return other.pairs.size() < pairs.size()
        && pairs.keySet().containsAll(other.pairs.keySet())
        && (other.isTritan() || !isTritan());
  }

  private static List<Contrast> of(LedGroup glow, LedGroup.Standing at) {
    List<State> states = at.unit().kind().states();
    List<Integer> asOne = seenAsOne(at);
    List<Integer> each = Collections.nCopies(at.unit().kind().lamps(), 1);
    List<List<Map<String, List<Hue>>>> seen =
        states.stream().map(state -> seen(at, state, asOne)).toList();
    List<Contrast> contrasts = new ArrayList<>();
    for (int i = 0; i < states.size(); i++) {
      for (int j = i + 1; j < states.size(); j++) {
        State one = states.get(i);
        State other = states.get(j);
        TreeMap<String, Pair> pairs = pairs(seen.get(i), seen.get(j));
        if (!pairs.isEmpty()) {
          boolean merged =
              !asOne.equals(each) && pairs(seen(at, one, each), seen(at, other, each)).isEmpty();
          contrasts.add(new Contrast(glow, at, one, other, pairs, merged));
        }
      }
    }
    return contrasts;
  }

  /** How many LEDs are seen as one, in chain order: those of a head whose lamps merge. */
  private static List<Integer> seenAsOne(LedGroup.Standing at) {
    Kind kind = at.unit().kind();
    if (!at.built().sight().merges()) {
      return Collections.nCopies(kind.lamps(), 1);
    }
    Signal.Build build = at.built().build();
    return kind.isWholeSignal()
        ? build.wired().stream().map(place -> build.heads().get(place).lamps().size()).toList()
        : List.of(kind.lamps());
  }

  /** What is seen of the LEDs: colours by rhythm. */
  private static List<Map<String, List<Hue>>> seen(
      LedGroup.Standing at, State state, List<Integer> asOne) {
    List<Map<String, List<Hue>>> seen = new ArrayList<>();
    int led = 0;
    for (int count : asOne) {
      Map<String, List<Hue>> lights = new TreeMap<>();
      for (int end = led + count; led < end; led++) {
        Display display = state.lit().get(led);
        if (!display.equals(Display.DARK)) {
          lights
              .computeIfAbsent(display.rhythm(), r -> new ArrayList<>())
              .add(
                  new Hue(
                      display.look(), at.each().get(led), at.unit().kind().chip(led).orElse(null)));
        }
      }
      seen.add(lights);
    }
    return seen;
  }

  /** Empty when something else tells the two apart: a place dark in one, or another rhythm. */
  private static TreeMap<String, Pair> pairs(
      List<Map<String, List<Hue>>> one, List<Map<String, List<Hue>>> other) {
    TreeMap<String, Pair> pairs = new TreeMap<>();
    for (int i = 0; i < one.size(); i++) {
      if (!one.get(i).keySet().equals(other.get(i).keySet())) {
        return new TreeMap<>();
      }
      for (String rhythm : one.get(i).keySet()) {
        Pair pair = new Pair(one.get(i).get(rhythm), other.get(i).get(rhythm));
        if (!colours(pair.one).equals(colours(pair.other))) {
          pairs.put(pair.words(), pair);
        }
      }
    }
    return pairs;
  }

  /** The unit that shows them. */
  public Unit unit() {
    return at.unit();
  }

  /** True when its lamps are so small that nobody has short-wave cones for them. */
  public boolean isTritan() {
    return at.built().sight().isTritan();
  }

  /** How far apart the two are to some eyes, by the lamp that tells most, with middling LEDs. */
  public double ofMiddle(Eye eye) {
    return pairs.values().stream()
        .mapToDouble(
            p -> eye.difference(light(p.one).chromaticity(), light(p.other).chromaticity()))
        .max()
        .orElseThrow();
  }

  /** The same with the LEDs of the bins that are hardest to tell apart. */
  public double ofWorst(Eye eye) {
    return pairs.values().stream()
        .mapToDouble(p -> eye.leastDifference(corners(p.one), corners(p.other)))
        .max()
        .orElseThrow();
  }

  private Xyz light(List<Hue> hues) {
    return hues.stream().map(this::light).reduce(Xyz.DARK, Xyz::plus);
  }

  /** An LED at an output is as its data sheet says, and dims in proportion. */
  private Xyz light(Hue hue) {
    return hue.chipOrNull() == null
        ? glow.light(hue.colour(), hue.at())
        : hue.chipOrNull()
            .diode(hue.colour())
            .light()
            .orElseThrow()
            .times(hue.at().percent() / 100);
  }

  /** Lamps of several colours are taken as middling: so many LEDs seldom all lie at one end. */
  private List<Xyz> corners(List<Hue> hues) {
    return Set.copyOf(hues).size() == 1 && hues.get(0).chipOrNull() == null
        ? glow.corners(hues.get(0).colour(), hues.get(0).at())
        : List.of(light(hues));
  }

  /** False where nobody says what an LED at an output shines. */
  private boolean isKnown() {
    return pairs.values().stream()
        .flatMap(p -> Stream.concat(p.one.stream(), p.other.stream()))
        .allMatch(
            h -> h.chipOrNull() == null || h.chipOrNull().diode(h.colour()).light().isPresent());
  }
}
