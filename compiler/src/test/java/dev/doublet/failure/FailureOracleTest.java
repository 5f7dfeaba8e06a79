package dev.doublet.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.failure.CountingCrew.Seen;
import dev.doublet.failure.Weighing.Harm;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;

/**
 * The evaluation of faults in rulebooks against one that counts out every picture: a dark head is
 * replaced by each display there is, in turn, and the reading of each is looked up. It knows
 * nothing of numerals, and sees an aspect for each number.
 */
@Tag("slow")
class FailureOracleTest {
  private static final List<Display> ALL =
      SmallBook.DISPLAYS.stream()
          .map(d -> d.split(" "))
          .map(d -> d.length == 1 ? Display.steady(d[0]) : new Display(d[1], d[0]))
          .toList();

  /** What is left of a signal of which a head is dark, steady or as it was. */
  private record Stands(List<Display> heads, List<String> plates) {}

  @Property(tries = 100, seed = "1957")
  void every_fault_and_every_two_are_weighed_as_by_counting_out_every_picture(@ForAll long start) {
    SmallBook small = new SmallBook(start);
    Set<String> found = new TreeSet<>();
    TreeMap<String, Integer> counted = new TreeMap<>();
    List<Site> sites = Site.of(small.book());
    for (Site site : sites) {
      site.cases().forEach(one -> found.add(Weighing.line(site, one)));
    }
    for (TrialResult pairs : Pairs.on(sites, Pairs.MOST_STEPS)) {
      pairs.hazards().forEach(one -> found.add(Weighing.line(pairs.site(), one)));
      counted.merge("less", (int) pairs.more(), Integer::sum);
      counted.merge("unknown", (int) pairs.unknown(), Integer::sum);
      counted.merge("safe", pairs.all() - (int) (pairs.more() + pairs.unknown()), Integer::sum);
    }
    Set<String> expected = new TreeSet<>();
    TreeMap<String, Integer> counts = new TreeMap<>(Map.of("less", 0, "unknown", 0, "safe", 0));
    sites.forEach(site -> expect(small.plain(), site, expected, counts));
    assertThat(found).isEqualTo(expected);
    assertThat(counted).isEqualTo(counts);
  }

  @Property(tries = 100, seed = "1957")
  void the_sites_of_a_rulebook_are_each_form_with_the_plates_of_each_pattern(@ForAll long start) {
    SmallBook small = new SmallBook(start);
    Rulebook book = small.plain();
    Set<String> expected = new TreeSet<>();
    for (Form form : book.forms()) {
      Set<List<String>> carried = new LinkedHashSet<>(List.of(List.of()));
      CountingCrew.patterns(book, form).forEach(p -> carried.add(p.plates()));
      for (List<String> plates : carried) {
        shown(book, form, plates).forEach(s -> expected.add(form.name() + plates + s));
      }
    }
    Set<String> found = new TreeSet<>();
    for (Site site : Site.of(small.book())) {
      for (Site.AspectPicture one : site.shown()) {
        Shown shown = new Shown(one.aspect(), one.picture());
        found.add(site.crew().form().name() + site.plates() + shown);
      }
    }
    assertThat(found).isEqualTo(expected);
  }

  private record Shown(Aspect aspect, List<Display> picture) {
    @Override
    public String toString() {
      return aspect.name() + picture;
    }
  }

  /** What patterns put up: one of their choices at each head, and dark where they take anything. */
  private static List<Shown> shown(Rulebook book, Form form, List<String> plates) {
    CountingCrew crew = new CountingCrew(book, form, List.of(), ALL);
    List<Shown> shown = new ArrayList<>();
    for (List<Display> picture : crew.pictures(form.places().size())) {
      for (Aspect aspect : book.aspects()) {
        for (Pattern pattern : crew.winners(form, plates, picture)) {
          boolean put = aspect.patterns().stream().anyMatch(p -> p == pattern);
          for (int head = 0; head < picture.size(); head++) {
            put &= !pattern.choices().get(head).isAny() || picture.get(head).equals(Display.DARK);
          }
          if (put) {
            shown.add(new Shown(aspect, picture));
          }
        }
      }
    }
    return shown;
  }

  private static void expect(
      Rulebook book, Site site, Set<String> lines, TreeMap<String, Integer> counts) {
    Form form = site.crew().form();
    List<Shown> shown = shown(book, form, site.plates());
    Set<Aspect> shows = new LinkedHashSet<>();
    shown.forEach(s -> shows.add(s.aspect()));
    CountingCrew crew = new CountingCrew(book, form, shows, ALL);
    for (Shown one : new LinkedHashSet<>(shown)) {
      Weighing<Stands> weighing =
          new Weighing<>(
              Weighing.where(
                  site, one.aspect(), one.picture().stream().map(Display::words).toList()),
              crew,
              one.aspect(),
              s -> s.heads().stream().map(Seen::of).toList(),
              Stands::plates,
              FailureOracleTest::together);
      Stands whole = new Stands(one.picture(), site.plates());
      List<Harm<Stands>> harms = harms(whole);
      weighing.singly(whole, harms, lines);
      weighing.singly(whole, stuckLit(whole, shown), lines);
      weighing.inPairs(whole, harms, lines, counts);
    }
  }

  /** A head has one flasher, so two that are stuck are those of different heads. */
  private static boolean together(Harm<Stands> one, Harm<Stands> other) {
    return one.kind() != Fault.FLASHER_STUCK
        || other.kind() != Fault.FLASHER_STUCK
        || one.on().stream().noneMatch(other.on()::contains);
  }

  private static List<Harm<Stands>> harms(Stands whole) {
    List<Harm<Stands>> harms = new ArrayList<>();
    int heads = whole.heads().size();
    for (int head = 0; head < heads; head++) {
      if (!whole.heads().get(head).equals(Display.DARK)) {
        harms.add(harm(Fault.LAMP_OUT, Set.of(head), d -> Display.DARK));
      }
    }
    for (int mask = 1; mask < 1 << heads; mask++) {
      Set<Integer> stuck = new TreeSet<>();
      for (int head = 0; head < heads; head++) {
        if ((mask >> head & 1) == 1) {
          stuck.add(head);
        }
      }
      long flashers = whole.heads().stream().filter(FailureOracleTest::flashes).count();
      boolean all = stuck.stream().allMatch(head -> flashes(whole.heads().get(head)));
      if (all && (stuck.size() == 1 || stuck.size() == flashers)) {
        harms.add(harm(Fault.FLASHER_STUCK, stuck, d -> flashes(d) ? Display.steady(d.look()) : d));
        harms.add(harm(Fault.FLASHER_STUCK, stuck, d -> flashes(d) ? Display.DARK : d));
      }
    }
    for (String plate : whole.plates()) {
      harms.add(
          new Harm<>(
              Fault.PLATE_LOST,
              Set.of(plate),
              s ->
                  new Stands(
                      s.heads(), s.plates().stream().filter(p -> !p.equals(plate)).toList())));
    }
    return harms;
  }

  /** Each dark head lit in a colour that it shows at some other time. */
  private static List<Harm<Stands>> stuckLit(Stands whole, List<Shown> shown) {
    List<Harm<Stands>> harms = new ArrayList<>();
    for (int head = 0; head < whole.heads().size(); head++) {
      for (Shown other : shown) {
        Display then = other.picture().get(head);
        if (whole.heads().get(head).equals(Display.DARK) && !then.equals(Display.DARK)) {
          Display lit = Display.steady(then.look());
          harms.add(harm(Fault.LAMP_STUCK, Set.of(head), d -> lit));
        }
      }
    }
    return harms;
  }

  private static boolean flashes(Display display) {
    return !display.rhythm().isEmpty();
  }

  private static Harm<Stands> harm(Fault kind, Set<Integer> heads, UnaryOperator<Display> does) {
    return new Harm<>(
        kind,
        heads,
        s -> {
          List<Display> after = new ArrayList<>(s.heads());
          heads.forEach(head -> after.set(head, does.apply(after.get(head))));
          return new Stands(after, s.plates());
        });
  }
}
