package dev.doublet.power;

import dev.doublet.rulebook.Rhythm;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * Which flashing lamps of a controller are lit together at one instant. All its rhythms run on one
 * clock, so that between two edges of a rhythm the same ones are lit, and lamps that take turns
 * never are together.
 *
 * <p>An instant in one period meets one in another if they are alike modulo what divides both
 * periods (the Chinese remainder theorem), so that moments of two periods are exact; of three, some
 * may be counted that only two at a time reach.
 *
 * <p>A filament that falls glows on while its partner rises, and the two are never more than one
 * whole light. So what filaments of one period draw lies between what they draw at instants when
 * each is fully on or off, and the largest of those is the largest of all. They lag behind lamps
 * that switch, and each of their periods behind the others, so that any of these may meet.
 *
 * @param switched names of the rhythms whose lamps that switch at once are lit
 * @param glowing names of the rhythms whose filaments are fully lit
 */
record Moment(Set<String> switched, Set<String> glowing) {
  /** More moments than this are not told apart: all rhythms are then taken to be lit together. */
  private static final int MOST = 64;

  /** Copies the sets. */
  Moment {
    switched = Set.copyOf(switched);
    glowing = Set.copyOf(glowing);
  }

  /**
   * Every moment at which no more lamps can be lit, at least one.
   *
   * @param switched rhythms of lamps that switch at once
   * @param glowing rhythms of filaments
   */
  static List<Moment> of(Collection<Rhythm> switched, Collection<Rhythm> glowing) {
    List<Set<String>> sharp = together(switched, true);
    List<Set<String>> slow = together(glowing, false);
    if (sharp.size() * slow.size() > MOST) {
      return List.of(new Moment(names(switched), names(glowing)));
    }
    List<Moment> moments = new ArrayList<>();
    for (Set<String> at : sharp) {
      slow.forEach(with -> moments.add(new Moment(at, with)));
    }
    return moments;
  }

  /** True when a lamp in a rhythm is lit; a steady one, without a rhythm, always is. */
  boolean lights(String rhythm, boolean filament) {
    return rhythm.isEmpty() || (filament ? glowing : switched).contains(rhythm);
  }

  /**
   * Rhythms that are lit together, the largest sets of them.
   *
   * @param inStep true when instants of two periods must meet on one clock, false when any do
   */
  private static List<Set<String>> together(Collection<Rhythm> rhythms, boolean inStep) {
    TreeMap<Integer, List<Rhythm>> byPeriod =
        rhythms.stream()
            .collect(
                Collectors.groupingBy(Rhythm::periodMillis, TreeMap::new, Collectors.toList()));
    List<List<Part>> all = List.of(List.of());
    for (List<Rhythm> alike : byPeriod.values()) {
      List<Part> parts = parts(alike);
      List<List<Part>> longer = new ArrayList<>();
      for (List<Part> before : all) {
        for (Part part : parts) {
          if (!inStep || before.stream().allMatch(part::meets)) {
            List<Part> with = new ArrayList<>(before);
            with.add(part);
            longer.add(with);
          }
        }
      }
      if (longer.size() > MOST) {
        return List.of(names(rhythms));
      }
      all = longer;
    }
    Set<Set<String>> lit = new LinkedHashSet<>();
    all.forEach(
        parts ->
            lit.add(parts.stream().flatMap(p -> p.lit().stream()).collect(Collectors.toSet())));
    return lit.stream()
        .filter(s -> lit.stream().noneMatch(o -> o.size() > s.size() && o.containsAll(s)))
        .toList();
  }

  private static Set<String> names(Collection<Rhythm> rhythms) {
    return rhythms.stream().map(Rhythm::name).collect(Collectors.toSet());
  }

  /** A period of some rhythms, cut where one of them is switched. */
  private static List<Part> parts(List<Rhythm> rhythms) {
    int period = rhythms.get(0).periodMillis();
    TreeSet<Integer> edges = new TreeSet<>(Set.of(0));
    rhythms.forEach(r -> edges.add(r.startsDark() ? period - r.litMillis() : r.litMillis()));
    List<Part> parts = new ArrayList<>();
    for (int from : edges) {
      Integer next = edges.higher(from);
      List<Rhythm> lit = rhythms.stream().filter(r -> isLit(r, from)).toList();
      parts.add(new Part(period, from, next == null ? period : next, names(lit)));
    }
    return parts;
  }

  private static boolean isLit(Rhythm rhythm, int into) {
    return rhythm.startsDark()
        ? into >= rhythm.periodMillis() - rhythm.litMillis()
        : into < rhythm.litMillis();
  }

  /**
   * A part of a period without an edge.
   *
   * @param period in milliseconds
   * @param from its first millisecond
   * @param to the first one after it
   * @param lit the rhythms lit in it
   */
  private record Part(int period, int from, int to, Set<String> lit) {

    /** True when some instant lies in this part of its period and in the other part of its. */
    boolean meets(Part other) {
      int step = greatestDivisor(period, other.period);
      int earliest = from - (other.to - 1);
      int latest = to - 1 - other.from;
      return Math.floorDiv(latest, step) * step >= earliest;
    }

    private static int greatestDivisor(int a, int b) {
      return b == 0 ? a : greatestDivisor(b, a % b);
    }
  }
}
