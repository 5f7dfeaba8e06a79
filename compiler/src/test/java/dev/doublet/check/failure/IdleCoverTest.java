package dev.doublet.check.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.facts.BookFacts;
import dev.doublet.facts.CheckOptions;
import dev.doublet.failure.Case;
import dev.doublet.failure.Condition;
import dev.doublet.failure.Glimpse;
import dev.doublet.failure.Site;
import dev.doublet.failure.Site.AspectPicture;
import dev.doublet.failure.SmallSignal;
import dev.doublet.failure.Trial;
import dev.doublet.layout.Feed;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;

/** Covers that are idle whatever the layout, against every layout there may be. */
@Tag("slow")
class IdleCoverTest {
  private static final List<String> FORMS = List.of("one", "two", "three", "left");
  private static final List<List<String>> PLATES =
      List.of(List.of(), List.of("p"), List.of("q"), List.of("p", "q"));

  @Property(tries = 60, seed = "1957")
  void a_cover_of_dies_or_chains_is_idle_when_no_head_no_wiring_and_no_led_needs_it(
      @ForAll long start) {
    Rulebook book = new SmallSignal(start).rulebook(covers());
    Set<String> needed = new TreeSet<>();
    for (Form form : book.forms()) {
      for (List<String> plates : PLATES) {
        Site.on(book, form, plates).ifPresent(site -> needed(site, needed));
      }
    }
    Set<String> idle = new TreeSet<>();
    for (String form : FORMS) {
      idle.add("die-out on " + form);
      idle.add("die-stuck on " + form);
      idle.add("chain-broken on " + form);
    }
    idle.removeAll(needed);
    assertThat(idle(book)).filteredOn(i -> i.matches("(die|chain).*")).hasSameElementsAs(idle);
  }

  @Property(tries = 100, seed = "1957")
  void what_an_idle_cover_names_makes_no_signal_of_any_layout_permit_more(@ForAll long start) {
    SmallSignal small = new SmallSignal(start);
    Set<String> idle = idle(small.rulebook(covers()));
    for (Site site : small.facts().sites()) {
      for (Case one : site.cases()) {
        if (one.isFalseProceed() && means(site, one.shown())) {
          Fault fault = one.trial().faults().get(0);
          assertThat(idle).doesNotContain(fault.words() + " on " + site.crew().form().name());
        }
      }
    }
  }

  /** False where the book is at fault: the picture is read as another aspect, or as several. */
  private static boolean means(Site site, AspectPicture shown) {
    List<Glimpse> whole = shown.picture().stream().map(Glimpse::of).toList();
    return site.crew().read(whole, site.plates()).reads().stream()
        .allMatch(r -> r.aspect().equals(shown.aspect()));
  }

  private static boolean isAsItWas(Case one) {
    return one.trial().seen().equals(one.shown().picture().stream().map(Glimpse::of).toList());
  }

  private static String covers() {
    StringBuilder covers = new StringBuilder();
    for (String form : FORMS) {
      for (Fault fault : Fault.values()) {
        covers.append("cover ").append(fault.words()).append(" on ").append(form);
        covers.append(" because \"of a test\"\n");
      }
    }
    return covers.toString();
  }

  private static Set<String> idle(Rulebook book) {
    Set<String> idle = new TreeSet<>();
    new IdleCover()
        .find(BookFacts.of(book, CheckOptions.FINDINGS))
        .forEach(d -> idle.add(d.message().replace("nothing is left for this to cover: ", "")));
    return idle;
  }

  private static void needed(Site site, Set<String> needed) {
    String form = site.crew().form().name();
    for (AspectPicture shown : site.shown()) {
      for (List<HeadType> heads : heads(site, shown.picture())) {
        for (List<Integer> wired : orders(heads.size())) {
          Site wholly =
              new Site(
                  List.of(),
                  site.crew(),
                  site.plates(),
                  heads,
                  wired,
                  feeds(heads),
                  List.of(),
                  List.of(shown));
          wholly.cases().stream()
              .filter(c -> !c.isSafe() && c.trial().faults().contains(Fault.CHAIN_BROKEN))
              .filter(c -> !isAsItWas(c))
              .forEach(c -> needed.add("chain-broken on " + form));
        }
        if (dies(site, shown, heads).stream().anyMatch(c -> !c.isSafe())) {
          needed.add("die-out on " + form);
        }
        if (stuckDies(site, shown, heads).stream().anyMatch(c -> !c.isSafe())) {
          needed.add("die-stuck on " + form);
        }
      }
    }
  }

  private static List<Feed> feeds(List<HeadType> heads) {
    int lamps = heads.stream().mapToInt(h -> h.lamps().size()).sum();
    return IntStream.range(0, lamps).mapToObj(Feed::led).toList();
  }

  /** One lamp in another colour of the book, or in none. */
  private static List<Case> dies(Site site, AspectPicture shown, List<HeadType> heads) {
    List<Case> cases = new ArrayList<>();
    for (int head = 0; head < heads.size(); head++) {
      Display display = shown.picture().get(head);
      List<Lit> lit = heads.get(head).lights(display.look()).orElseThrow();
      for (Lit lamp : lit) {
        List<Lit> others = lit.stream().filter(l -> l != lamp).toList();
        for (Colour colour : site.crew().book().colours()) {
          List<Lit> changed = new ArrayList<>(others);
          changed.add(lit.indexOf(lamp), new Lit(lamp.lamp(), colour.name()));
          if (!colour.name().equals(lamp.colour())) {
            cases.add(
                seen(site, shown, head, glimpse(heads.get(head), changed, display.rhythm(), 0)));
          }
        }
        cases.add(seen(site, shown, head, glimpse(heads.get(head), others, display.rhythm(), 1)));
      }
    }
    return cases;
  }

  /**
   * One lamp that is steady in another colour of the book, or in none; one that is to flash changes
   * between two lights, and so is in none.
   */
  private static List<Case> stuckDies(Site site, AspectPicture shown, List<HeadType> heads) {
    List<Case> cases = new ArrayList<>();
    for (int head = 0; head < heads.size(); head++) {
      HeadType make = heads.get(head);
      String rhythm = shown.picture().get(head).rhythm();
      List<Lit> lit = make.lights(shown.picture().get(head).look()).orElseThrow();
      for (int lamp = 0; lamp < make.lamps().size(); lamp++) {
        int at = lamp;
        List<Lit> others = lit.stream().filter(l -> l.lamp() != at).toList();
        List<String> rhythms = new ArrayList<>(Collections.nCopies(others.size(), rhythm));
        cases.add(seen(site, shown, head, Glimpse.of(make, others, rhythms, 1)));
        if (others.size() < lit.size() && !rhythm.isEmpty()) {
          continue;
        }
        rhythms.add("");
        for (Colour colour : site.crew().book().colours()) {
          List<Lit> changed = new ArrayList<>(others);
          changed.add(new Lit(lamp, colour.name()));
          if (!changed.containsAll(lit) || others.size() == lit.size()) {
            cases.add(seen(site, shown, head, Glimpse.of(make, changed, rhythms, 0)));
          }
        }
      }
    }
    return cases;
  }

  private static Glimpse glimpse(HeadType make, List<Lit> lit, String rhythm, int strange) {
    return Glimpse.of(make, lit, Collections.nCopies(lit.size(), rhythm), strange);
  }

  private static Case seen(Site site, AspectPicture shown, int head, Glimpse glimpse) {
    List<Glimpse> seen = new ArrayList<>(shown.picture().stream().map(Glimpse::of).toList());
    seen.set(head, glimpse);
    Condition condition = site.whole(shown.picture());
    return Case.of(shown, new Trial(List.of(), condition, seen), site.crew());
  }

  /** Every way to choose heads that can show a picture. */
  private static List<List<HeadType>> heads(Site site, List<Display> picture) {
    List<List<HeadType>> chosen = List.of(List.of());
    for (int head = 0; head < picture.size(); head++) {
      List<List<HeadType>> longer = new ArrayList<>();
      for (List<HeadType> before : chosen) {
        for (HeadType type : site.types(head, picture.get(head))) {
          List<HeadType> next = new ArrayList<>(before);
          next.add(type);
          longer.add(next);
        }
      }
      chosen = longer;
    }
    return chosen;
  }

  /** Every order of so many heads on the chain. */
  private static List<List<Integer>> orders(int heads) {
    List<List<Integer>> orders = List.of(List.of());
    for (int head = 0; head < heads; head++) {
      List<List<Integer>> longer = new ArrayList<>();
      for (List<Integer> before : orders) {
        for (int place = 0; place <= before.size(); place++) {
          List<Integer> next = new ArrayList<>(before);
          next.add(place, head);
          longer.add(next);
        }
      }
      orders = longer;
    }
    return orders;
  }
}
