package dev.doublet.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.facts.LayoutFacts;
import dev.doublet.failure.CountingCrew.Seen;
import dev.doublet.failure.SmallSignal.Make;
import dev.doublet.failure.Weighing.Harm;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;

/**
 * The evaluation of faults on signals of layouts against a bench model of one: a row of LEDs, each
 * with the dies that shine in it. Faults switch dies off or on, and what shines is named by its
 * dies.
 */
@Tag("slow")
class SignalOracleTest {
  private static final String STRANGE = "a light of no known colour";
  private static final List<Display> ALL = new ArrayList<>();

  static {
    ALL.add(Display.DARK);
    for (String look : List.of("red", "green", "yellow", "lunar", "figure0", "figure1", "4", "6")) {
      ALL.add(Display.steady(look));
      ALL.add(new Display(look, "flashing"));
    }
  }

  /**
   * The signal on the bench.
   *
   * @param dies for each head, from its first lamp, which dies shine: bit 0 red, 1 green, 2 blue
   * @param stuck the same for dies that shine all the time, whatever the head is to show
   * @param flashes for each head, which of its lamps flash
   * @param plates the plates that are there
   */
  private record Bench(
      List<List<Integer>> dies,
      List<List<Integer>> stuck,
      List<Set<Integer>> flashes,
      List<String> plates) {}

  @Property(tries = 60, seed = "1957")
  void every_fault_and_every_two_are_weighed_as_on_the_bench(@ForAll long start) {
    SmallSignal small = new SmallSignal(start);
    List<Site> sites = new ArrayList<>(small.facts().sites());
    if (small.heads().size() < 3) {
      sites.addAll(small.factsByHead().sites());
    }
    for (Site site : sites) {
      Set<String> found = new TreeSet<>();
      site.cases().forEach(one -> found.add(Weighing.line(site, one)));
      site.stuckDies().forEach(one -> found.add(Weighing.line(site, one)));
      TrialResult pairs = Pairs.on(List.of(site), Pairs.MOST_STEPS).get(0);
      pairs.hazards().forEach(one -> found.add(Weighing.line(site, one)));
      Map<String, Integer> counted =
          Map.of(
              "less", (int) pairs.more(),
              "unknown", (int) pairs.unknown(),
              "safe", pairs.all() - (int) (pairs.more() + pairs.unknown()));
      Set<String> expected = new TreeSet<>();
      TreeMap<String, Integer> counts = new TreeMap<>(Map.of("less", 0, "unknown", 0, "safe", 0));
      expect(small, site, expected, counts);
      assertThat(found).isEqualTo(expected);
      assertThat(counted).isEqualTo(counts);
    }
  }

  @Property(tries = 60, seed = "1957")
  void heads_commanded_by_themselves_are_tried_at_every_picture_that_means_something(
      @ForAll long start) {
    SmallSignal small = new SmallSignal(start);
    Assume.that(
        small.heads().stream().mapToInt(make -> small.shows(make).size()).reduce(1, (a, b) -> a * b)
            <= Site.MOST_PICTURES);
    LayoutFacts facts = small.factsByHead();
    Signal signal = facts.builds().get(0).first();
    CountingCrew crew =
        new CountingCrew(facts.layout().rulebook(), signal.build().form(), Set.of(), ALL);
    Set<String> meant = new TreeSet<>();
    Set<String> meaningless = new TreeSet<>();
    for (List<Display> picture : crew.pictures(small.heads().size())) {
      boolean can = true;
      for (int head = 0; head < picture.size(); head++) {
        can &= small.shows(small.heads().get(head)).contains(picture.get(head).words());
      }
      List<Pattern> winners = crew.winners(signal.build().form(), signal.build().plates(), picture);
      if (can && winners.isEmpty()) {
        meaningless.add(picture.toString());
      } else if (can) {
        meant.add(picture.toString());
      }
    }
    Repertoire commanded = Repertoire.of(facts.layout().rulebook(), signal);
    assertThat(commanded.untried()).isZero();
    assertThat(commanded.meaningless().stream().map(List::toString).toList())
        .containsExactlyInAnyOrderElementsOf(meaningless);
    assertThat(commanded.shown().stream().map(s -> s.picture().toString()).distinct().toList())
        .containsExactlyInAnyOrderElementsOf(meant);
  }

  private static void expect(
      SmallSignal small, Site site, Set<String> lines, TreeMap<String, Integer> counts) {
    Rulebook plain = small.plain();
    Set<Aspect> shows = new LinkedHashSet<>();
    site.shown().forEach(s -> shows.add(plain.aspect(s.aspect().name()).orElseThrow()));
    CountingCrew crew = new CountingCrew(plain, site.crew().form(), shows, ALL);
    for (Site.AspectPicture one : site.shown()) {
      Weighing<Bench> weighing =
          new Weighing<>(
              Weighing.where(
                  site, one.aspect(), one.picture().stream().map(Display::words).toList()),
              crew,
              plain.aspect(one.aspect().name()).orElseThrow(),
              bench -> seen(small, bench),
              Bench::plates,
              SignalOracleTest::together);
      Bench whole = bench(small, one.picture(), site.plates());
      List<Harm<Bench>> harms = harms(small, whole);
      weighing.singly(whole, harms, lines);
      weighing.singly(whole, stuckLit(small, whole, site.shown()), lines);
      weighing.inPairs(whole, harms, lines, counts);
    }
  }

  private static Bench bench(SmallSignal small, List<Display> picture, List<String> plates) {
    List<List<Integer>> dies = new ArrayList<>();
    List<List<Integer>> stuck = new ArrayList<>();
    List<Set<Integer>> flashes = new ArrayList<>();
    for (int head = 0; head < picture.size(); head++) {
      Make make = small.heads().get(head);
      SortedMap<Integer, String> lit =
          picture.get(head).equals(Display.DARK)
              ? new TreeMap<>()
              : make.looks().get(picture.get(head).look());
      List<Integer> row = new ArrayList<>();
      for (int lamp = 0; lamp < make.lamps().size(); lamp++) {
        row.add(lit.containsKey(lamp) ? SmallSignal.DIES.get(lit.get(lamp)) : 0);
      }
      dies.add(row);
      stuck.add(Collections.nCopies(row.size(), 0));
      flashes.add(
          picture.get(head).rhythm().isEmpty()
              ? make.flashing().getOrDefault(picture.get(head).look(), Set.of())
              : lit.keySet());
    }
    return new Bench(dies, stuck, flashes, plates);
  }

  private static List<Harm<Bench>> harms(SmallSignal small, Bench whole) {
    List<Harm<Bench>> harms = new ArrayList<>();
    List<int[]> chain = new ArrayList<>();
    for (int head : small.wired()) {
      for (int lamp = 0; lamp < whole.dies().get(head).size(); lamp++) {
        chain.add(new int[] {head, lamp});
      }
    }
    for (int[] led : chain) {
      int shine = whole.dies().get(led[0]).get(led[1]);
      if (shine != 0) {
        harms.add(off(Fault.LAMP_OUT, List.of(led), 0));
      }
      for (int die = 1; die < 8 && Integer.bitCount(shine) > 1; die <<= 1) {
        if ((shine & die) != 0) {
          harms.add(off(Fault.DIE_OUT, List.of(led), 7 - die));
        }
      }
    }
    for (int from = 0; from < chain.size(); from++) {
      harms.add(off(Fault.CHAIN_BROKEN, chain.subList(from, chain.size()), 0));
    }
    Set<Integer> flashing = new TreeSet<>();
    for (int head = 0; head < whole.flashes().size(); head++) {
      if (!whole.flashes().get(head).isEmpty()) {
        flashing.add(head);
        harms.add(stuck(Set.of(head), true));
        harms.add(stuck(Set.of(head), false));
      }
    }
    if (flashing.size() > 1) {
      harms.add(stuck(flashing, true));
      harms.add(stuck(flashing, false));
    }
    for (String plate : whole.plates()) {
      UnaryOperator<Bench> lose =
          b ->
              new Bench(
                  b.dies(),
                  b.stuck(),
                  b.flashes(),
                  b.plates().stream().filter(p -> !p.equals(plate)).toList());
      harms.add(new Harm<>(Fault.PLATE_LOST, Set.of(), lose));
    }
    return harms;
  }

  /** What is lit that should not be: a whole lamp, another roundel of a vane, one die. */
  private static List<Harm<Bench>> stuckLit(
      SmallSignal small, Bench whole, List<Site.AspectPicture> shown) {
    List<Harm<Bench>> harms = new ArrayList<>();
    for (int head = 0; head < whole.dies().size(); head++) {
      Make make = small.heads().get(head);
      for (int lamp = 0; lamp < make.lamps().size(); lamp++) {
        int shine = whole.dies().get(head).get(lamp);
        for (int die = 1; die < 8; die <<= 1) {
          if ((shine & die) == 0) {
            harms.add(lit(Fault.DIE_STUCK, head, lamp, die));
          }
        }
        for (Site.AspectPicture other : shown) {
          SortedMap<Integer, String> then = make.looks().get(other.picture().get(head).look());
          int last = then == null || !then.containsKey(lamp) ? 0 : dies(then.get(lamp));
          if (last != 0 && shine == 0) {
            harms.add(lit(Fault.LAMP_STUCK, head, lamp, last));
          } else if (last != 0 && shine != last && make.vane()) {
            harms.add(vane(head, lamp, last));
          }
        }
      }
    }
    return harms;
  }

  private static int dies(String colour) {
    return SmallSignal.DIES.get(colour);
  }

  private static Harm<Bench> lit(Fault kind, int head, int lamp, int dies) {
    return new Harm<>(
        kind,
        Set.of(),
        b -> new Bench(b.dies(), set(b.stuck(), head, lamp, dies), b.flashes(), b.plates()));
  }

  private static Harm<Bench> vane(int head, int lamp, int dies) {
    return new Harm<>(
        Fault.VANE_STUCK,
        Set.of(),
        b -> new Bench(set(b.dies(), head, lamp, dies), b.stuck(), b.flashes(), b.plates()));
  }

  private static List<List<Integer>> set(List<List<Integer>> rows, int head, int lamp, int dies) {
    List<List<Integer>> all = new ArrayList<>();
    rows.forEach(row -> all.add(new ArrayList<>(row)));
    all.get(head).set(lamp, dies);
    return all;
  }

  private static Harm<Bench> off(Fault kind, List<int[]> leds, int mask) {
    return new Harm<>(
        kind,
        Set.of(),
        b -> {
          List<List<Integer>> dies = new ArrayList<>();
          b.dies().forEach(row -> dies.add(new ArrayList<>(row)));
          leds.forEach(led -> dies.get(led[0]).set(led[1], dies.get(led[0]).get(led[1]) & mask));
          return new Bench(dies, b.stuck(), b.flashes(), b.plates());
        });
  }

  private static Harm<Bench> stuck(Set<Integer> heads, boolean on) {
    return new Harm<>(
        Fault.FLASHER_STUCK,
        heads,
        b -> {
          List<List<Integer>> dies = new ArrayList<>(b.dies());
          List<Set<Integer>> flashes = new ArrayList<>(b.flashes());
          for (int head : heads) {
            List<Integer> row = new ArrayList<>(dies.get(head));
            for (int lamp : flashes.get(head)) {
              row.set(lamp, on ? row.get(lamp) : 0);
            }
            dies.set(head, row);
            flashes.set(head, Set.of());
          }
          return new Bench(dies, b.stuck(), flashes, b.plates());
        });
  }

  /** A head has one flasher, so two that are stuck are those of different heads. */
  private static boolean together(Harm<Bench> one, Harm<Bench> other) {
    return one.on().stream().noneMatch(other.on()::contains);
  }

  private static List<Seen> seen(SmallSignal small, Bench bench) {
    List<Seen> seen = new ArrayList<>();
    for (int head = 0; head < bench.dies().size(); head++) {
      seen.add(seen(small.heads().get(head), bench, head));
    }
    return seen;
  }

  private static Seen seen(Make make, Bench bench, int head) {
    SortedMap<Integer, String> lit = new TreeMap<>();
    SortedMap<Integer, String> rhythms = new TreeMap<>();
    boolean strange = false;
    for (int lamp = 0; lamp < make.lamps().size(); lamp++) {
      int driven = bench.dies().get(head).get(lamp);
      int stuck = bench.stuck().get(head).get(lamp);
      boolean flashes = bench.flashes().get(head).contains(lamp) && driven != 0;
      // What flashes over dies that stay lit changes between two lights.
      String colour = flashes && stuck != 0 ? "" : colour(driven | stuck);
      if (!colour.isEmpty()) {
        lit.put(lamp, colour);
        rhythms.put(lamp, flashes ? "flashing" : "");
      }
      strange |= colour.isEmpty() && (driven | stuck) != 0;
    }
    if (lit.isEmpty()) {
      return strange
          ? new Seen(null, Set.of(), false, STRANGE, Set.of("?"))
          : Seen.of(Display.DARK);
    }
    Set<String> shines = new TreeSet<>(lit.values());
    if (strange) {
      shines.add("?");
    }
    Set<Display> maybe = new LinkedHashSet<>();
    for (Map.Entry<String, SortedMap<Integer, String>> look : make.looks().entrySet()) {
      if (look.getValue().entrySet().containsAll(lit.entrySet())) {
        Optional<Display> display = display(look.getKey(), make, rhythms);
        display.ifPresent(maybe::add);
        if (display.isPresent() && !strange && look.getValue().equals(lit)) {
          return Seen.of(display.get());
        }
      }
    }
    if (!strange && lit.size() == 1) {
      Display lone = new Display(lit.get(lit.firstKey()), rhythms.get(lit.firstKey()));
      maybe.add(lone);
      return new Seen(lone, maybe, false, lone.words(), shines);
    }
    return new Seen(null, maybe, maybe.isEmpty(), words(make, lit, strange, rhythms), shines);
  }

  /**
   * A look in the rhythm in which its lamps shine; empty when they do not shine as its lamps do.
   */
  private static Optional<Display> display(
      String look, Make make, SortedMap<Integer, String> rhythms) {
    Set<Integer> own = make.flashing().get(look);
    if (own == null) {
      boolean alike = new TreeSet<>(rhythms.values()).size() == 1;
      return alike
          ? Optional.of(new Display(look, rhythms.get(rhythms.firstKey())))
          : Optional.empty();
    }
    boolean all =
        rhythms.entrySet().stream()
            .allMatch(e -> e.getValue().isEmpty() != own.contains(e.getKey()));
    return all ? Optional.of(Display.steady(look)) : Optional.empty();
  }

  /** As people would say it: "flashing red at l0 and l2 with a light of no known colour". */
  private static String words(
      Make make,
      SortedMap<Integer, String> lit,
      boolean strange,
      SortedMap<Integer, String> rhythms) {
    Map<String, List<String>> places = new LinkedHashMap<>();
    lit.forEach(
        (lamp, colour) ->
            places
                .computeIfAbsent((rhythms.get(lamp) + " " + colour).trim(), c -> new ArrayList<>())
                .add(make.lamp(lamp)));
    List<String> parts = new ArrayList<>();
    places.forEach(
        (light, at) ->
            parts.add(light + " at " + String.join(", ", at).replaceAll(", ([^,]+)$", " and $1")));
    if (strange) {
      parts.add(STRANGE);
    }
    return String.join(" with ", parts);
  }

  private static String colour(int dies) {
    return SmallSignal.DIES.entrySet().stream()
        .filter(e -> e.getValue() == dies)
        .map(Map.Entry::getKey)
        .collect(Collectors.joining());
  }
}
