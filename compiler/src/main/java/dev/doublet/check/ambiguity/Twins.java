package dev.doublet.check.ambiguity;

import dev.doublet.cells.Clashes;
import dev.doublet.cells.Cube;
import dev.doublet.cells.Gaps;
import dev.doublet.cells.Row;
import dev.doublet.cells.Widest;
import dev.doublet.facts.BookFacts.AspectPattern;
import dev.doublet.facts.BookFacts.Look;
import dev.doublet.facts.PatternTable;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading.Reads;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/**
 * The aspects of one look that share pictures. Every two that share one are among the aspects of
 * some picture, as long as there are no more pictures than anybody mends at one go.
 *
 * @param pictures each with all aspects that it means; none of them with a part of another's alone
 * @param more how many further pairs of patterns meet, once {@link #MOST_PICTURES} are found
 * @param untried pairs of which too little is known, the first {@link #MOST_UNTRIED}
 */
record Twins(List<Picture> pictures, long more, List<Pair> untried) {
  /** Steps of the engine for each look: about a second. */
  static final long BUDGET = 10_000_000;

  static final int MOST_PICTURES = 1_000;
  static final int MOST_UNTRIED = 100;

  private static final Comparator<AspectPattern> BY_PLACE =
      Comparator.comparing((AspectPattern s) -> s.pattern().span());

  /** What it costs to put a question to the engine, in its steps. */
  private static final int STEPS_TO_ASK = 100;

  /** How many answers are kept, for patterns that are written alike. */
  private static final int MOST_KEPT = 10_000;

  /**
   * A picture that means several aspects.
   *
   * @param picture what the heads show
   * @param shown a pattern of each aspect that shows it, in the order written
   */
  record Picture(List<Display> picture, List<AspectPattern> shown) {}

  /** Two patterns of two aspects, in the order written. */
  record Pair(AspectPattern first, AspectPattern second) {
    static Pair of(AspectPattern one, AspectPattern other) {
      return BY_PLACE.compare(one, other) <= 0 ? new Pair(one, other) : new Pair(other, one);
    }
  }

  /**
   * Looks for them.
   *
   * @param budget in steps of the engine
   */
  static Twins of(Look look, PatternTable patterns, long budget) {
    Search search = new Search(look, patterns, budget);
    Clashes.each(patterns.table(), search);
    search.withinFamilies();
    return search.twins();
  }

  /**
   * Looks for those of which some two share no picture in truth, and do as they are seen.
   *
   * @param seen the patterns as they are seen
   * @param real the same patterns as they are
   * @param budget in steps of the engine
   */
  static Twins onlySeen(Look look, PatternTable seen, PatternTable real, long budget) {
    Search search = new Search(look, seen, budget);
    Clashes.eachOnlyIn(seen.table(), real.table(), search);
    return search.twins();
  }

  private static final class Search implements Clashes.Teller {
    private static final BitSet NOT_DONE = new BitSet();

    private final Look look;
    private final PatternTable patterns;
    private final List<Found> found = new ArrayList<>();
    private final Map<BitSet, Pair> untried = new LinkedHashMap<>();
    private final Map<List<List<String>>, List<Integer>> outdoing = new HashMap<>();
    private final Map<PlateQuestion, Gaps> answers = new HashMap<>();
    private long left;
    private long more;
    private final int aspects;

    Search(Look look, PatternTable patterns, long budget) {
      this.look = look;
      this.patterns = patterns;
      this.left = budget;
      this.aspects = 1 + patterns.table().rows().stream().mapToInt(Row::result).max().orElse(0);
    }

    /** A picture with the places of its aspects in the book. */
    private record Found(BitSet aspects, Picture picture) {}

    /** What is asked of the engine: pictures that two patterns share, and the plates of each. */
    private record PlateQuestion(Cube shared, List<List<String>> plates) {}

    @Override
    public BitSet tell(int first, int second) {
      Pattern one = pattern(first);
      Pattern other = pattern(second);
      if (one.moreSpecificThan(other) || other.moreSpecificThan(one)) {
        return NOT_DONE;
      }
      if (found.size() == MOST_PICTURES) {
        more++;
        return NOT_DONE;
      }
      Gaps shared = undecided(first, second, patterns.shared(first, second));
      if (!shared.cubes().isEmpty()) {
        found.add(allMeaning(shared.cubes().get(0), carried(one.plates(), other.plates())));
        return found.get(found.size() - 1).aspects();
      }
      if (!shared.complete()) {
        notKnown(first, second);
      }
      return NOT_DONE;
    }

    private void notKnown(int first, int second) {
      if (untried.size() < MOST_UNTRIED) {
        BitSet aspects = new BitSet();
        aspects.set(aspect(first));
        aspects.set(aspect(second));
        untried.putIfAbsent(aspects, Pair.of(look.shown().get(first), look.shown().get(second)));
      }
    }

    /**
     * Looks for pictures that mean two numbers of one aspect: a letter stands at different heads in
     * two of its patterns, and both numbers are lit.
     */
    void withinFamilies() {
      Map<Integer, List<Integer>> families = new LinkedHashMap<>();
      for (int row = 0; row < look.shown().size(); row++) {
        if (pattern(row).hasNumeral()) {
          families.computeIfAbsent(aspect(row), a -> new ArrayList<>()).add(row);
        }
      }
      families.values().forEach(this::withinFamily);
    }

    private void withinFamily(List<Integer> rows) {
      for (int i = 0; i < rows.size(); i++) {
        for (int k = i + 1; k < rows.size(); k++) {
          int first = rows.get(i);
          int second = rows.get(k);
          for (Cube cube : numbersApart(first, second)) {
            Gaps shared = undecided(first, second, cube);
            if (!shared.cubes().isEmpty()) {
              found.add(ofNumbers(first, second, patterns.picture(shared.cubes().get(0))));
              return;
            }
            if (!shared.complete()) {
              notKnown(first, second);
              return;
            }
          }
        }
      }
    }

    /**
     * What two patterns of one aspect share where some letter is one number here, another there.
     */
    private List<Cube> numbersApart(int first, int second) {
      List<Integer> here = heads(first);
      List<Integer> there = heads(second);
      Pattern one = pattern(first);
      Pattern other = pattern(second);
      if (here.equals(there) || one.moreSpecificThan(other) || other.moreSpecificThan(one)) {
        return List.of();
      }
      Optional<Cube> shared = patterns.cube(first).and(patterns.table().rows().get(second));
      List<Cube> apart = new ArrayList<>();
      for (int letter = 0; letter < here.size() && shared.isPresent(); letter++) {
        apart.addAll(patterns.apart(shared.get(), here.get(letter), there.get(letter)));
      }
      return apart;
    }

    /** The head that shows each letter of a pattern. */
    private List<Integer> heads(int row) {
      List<String> letters = pattern(row).choices().stream().map(Choice::letter).toList();
      return look.shown().get(row).aspect().numerals().letters().stream()
          .map(letters::indexOf)
          .toList();
    }

    private Found ofNumbers(int first, int second, List<Display> picture) {
      BitSet one = new BitSet();
      // No aspect has this place: what is told of one alone lies in nothing that is told of two.
      one.set(aspects + aspect(first));
      List<AspectPattern> shown =
          Stream.of(first, second)
              .map(row -> look.shown().get(row))
              .map(s -> new Reads(s.aspect(), s.pattern()).of(picture))
              .map(r -> new AspectPattern(r.aspect(), r.pattern()))
              .sorted(BY_PLACE)
              .toList();
      return new Found(one, new Picture(picture, shown));
    }

    /**
     * The pictures of a cube that remain when every pattern has been taken away that outdoes one of
     * two on the plainest signal that carries the plates of both; none when one outdoes the other.
     */
    private Gaps undecided(int first, int second, Cube shared) {
      List<List<String>> plates = List.of(pattern(first).plates(), pattern(second).plates());
      List<Integer> settling = outdoing.computeIfAbsent(plates, p -> outdoing(p.get(0), p.get(1)));
      if (settling.isEmpty()) {
        return new Gaps(List.of(shared), true, 0);
      }
      PlateQuestion asked = new PlateQuestion(shared, plates);
      Gaps known = answers.get(asked);
      if (known != null) {
        return known;
      }
      if (left <= 0) {
        return new Gaps(List.of(), false, 0);
      }
      Gaps gaps = patterns.outside(settling, shared, left);
      left -= gaps.steps() + STEPS_TO_ASK;
      if (answers.size() < MOST_KEPT) {
        answers.put(asked, gaps);
      }
      return gaps;
    }

    private List<Integer> outdoing(List<String> one, List<String> other) {
      Set<String> carried = carried(one, other);
      List<Integer> rows = new ArrayList<>();
      for (int i = 0; i < look.shown().size(); i++) {
        List<String> plates = pattern(i).plates();
        if (carried.containsAll(plates) && (outdoes(plates, one) || outdoes(plates, other))) {
          rows.add(i);
        }
      }
      return rows;
    }

    private static Set<String> carried(List<String> one, List<String> other) {
      Set<String> carried = new TreeSet<>(one);
      carried.addAll(other);
      return carried;
    }

    private static boolean outdoes(List<String> more, List<String> few) {
      return more.size() > few.size() && more.containsAll(few);
    }

    /** The same on a signal with more plates, as long as no aspect is lost for those it gains. */
    private Found allMeaning(Cube cube, Set<String> carried) {
      int[] point = cube.point();
      Set<List<String>> others = new LinkedHashSet<>();
      for (int i = 0; i < look.shown().size(); i++) {
        if (!carried.containsAll(pattern(i).plates())
            && patterns.table().rows().get(i).covers(point)) {
          others.add(pattern(i).plates());
        }
      }
      Set<String> all = new TreeSet<>(carried);
      Found widest = meaning(cube, all);
      for (List<String> plates : others) {
        Set<String> with = new TreeSet<>(all);
        with.addAll(plates);
        Found now = meaning(cube, with);
        if (Widest.holds(now.aspects(), widest.aspects())) {
          widest = now;
          all = with;
        }
      }
      return widest;
    }

    /** All that a picture of a cube means on a signal with some plates. */
    private Found meaning(Cube cube, Set<String> carried) {
      List<Row> rows = patterns.table().rows();
      int[] point = cube.point();
      List<Integer> covering = new ArrayList<>();
      Set<List<String>> plates = new LinkedHashSet<>();
      for (int i = 0; i < rows.size(); i++) {
        if (carried.containsAll(pattern(i).plates()) && rows.get(i).covers(point)) {
          covering.add(i);
          plates.add(pattern(i).plates());
        }
      }
      BitSet aspects = new BitSet();
      Map<Integer, AspectPattern> first = new HashMap<>();
      for (int i : covering) {
        if (plates.stream().noneMatch(p -> outdoes(p, pattern(i).plates()))) {
          aspects.set(aspect(i));
          first.merge(aspect(i), look.shown().get(i), Search::earlier);
        }
      }
      List<AspectPattern> shown = first.values().stream().sorted(BY_PLACE).toList();
      return new Found(aspects, new Picture(patterns.picture(cube), shown));
    }

    private static AspectPattern earlier(AspectPattern one, AspectPattern other) {
      return BY_PLACE.compare(one, other) <= 0 ? one : other;
    }

    Twins twins() {
      List<Picture> pictures =
          Widest.of(found, Found::aspects).stream().map(Found::picture).toList();
      return new Twins(pictures, more, unknown());
    }

    private List<Pair> unknown() {
      return untried.entrySet().stream()
          .filter(pair -> found.stream().noneMatch(f -> Widest.holds(f.aspects(), pair.getKey())))
          .map(Map.Entry::getValue)
          .toList();
    }

    private Pattern pattern(int row) {
      return look.shown().get(row).pattern();
    }

    private int aspect(int row) {
      return patterns.table().rows().get(row).result();
    }
  }
}
