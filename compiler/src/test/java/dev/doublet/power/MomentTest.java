package dev.doublet.power;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.rulebook.Rhythm;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tag;
import org.junit.jupiter.api.Test;

/** Moments at which rhythms are lit together, against every millisecond of their clock. */
class MomentTest {
  /** All periods below divide it. */
  private static final int AROUND = 3000;

  @Provide
  Arbitrary<List<Rhythm>> ofTwoPeriods() {
    return Arbitraries.of(600, 400, 300, 240, 200)
        .set()
        .ofMinSize(1)
        .ofMaxSize(2)
        .flatMap(rates -> rhythms(Arbitraries.of(rates)));
  }

  @Provide
  Arbitrary<List<Rhythm>> ofAnyPeriods() {
    return rhythms(Arbitraries.of(600, 400, 300, 240, 200));
  }

  private static Arbitrary<List<Rhythm>> rhythms(Arbitrary<Integer> rates) {
    return Combinators.combine(
            rates, Arbitraries.integers().between(1, 99), Arbitraries.of(true, false))
        .as((rate, percent, dark) -> rhythm("", rate, percent, dark))
        .list()
        .ofMinSize(1)
        .ofMaxSize(5)
        .map(
            found -> {
              List<Rhythm> named = new ArrayList<>();
              for (Rhythm r : found) {
                String name = "rhythm-" + named.size();
                named.add(rhythm(name, r.perMinute(), r.litPercent(), r.startsDark()));
              }
              return named;
            });
  }

  @Tag("slow")
  @Property(tries = 500, seed = "1957")
  void of_two_periods_every_largest_set_is_lit_at_some_millisecond_and_no_other(
      @ForAll("ofTwoPeriods") List<Rhythm> rhythms) {
    assertThat(Moment.of(rhythms, List.of()))
        .extracting(Moment::switched)
        .containsExactlyInAnyOrderElementsOf(largest(everyMillisecond(rhythms)));
  }

  @Tag("slow")
  @Property(tries = 500, seed = "1957")
  void of_any_periods_no_millisecond_lights_more_than_some_moment(
      @ForAll("ofAnyPeriods") List<Rhythm> rhythms) {
    List<Moment> sharp = Moment.of(rhythms, List.of());
    List<Moment> slow = Moment.of(List.of(), rhythms);
    for (Set<String> lit : everyMillisecond(rhythms)) {
      assertThat(sharp).anyMatch(m -> m.switched().containsAll(lit));
      assertThat(slow).anyMatch(m -> m.glowing().containsAll(lit));
    }
  }

  @Test
  void lamps_of_one_period_take_turns_and_those_of_another_meet_both() {
    Rhythm early = rhythm("early", 60, 50, false);
    Rhythm late = rhythm("late", 60, 50, true);
    Rhythm quick = rhythm("quick", 80, 50, true);
    assertThat(Moment.of(List.of(early, late, quick), List.of()))
        .containsExactlyInAnyOrder(
            new Moment(Set.of("early", "quick"), Set.of()),
            new Moment(Set.of("late", "quick"), Set.of()));
  }

  @Test
  void lit_parts_of_more_than_half_overlap() {
    Rhythm early = rhythm("early", 60, 51, false);
    Rhythm late = rhythm("late", 60, 50, true);
    assertThat(Moment.of(List.of(early, late), List.of()))
        .containsExactly(new Moment(Set.of("early", "late"), Set.of()));
  }

  /** Lit from 0 to 300 of 1,000 ms, and from 350 to 500 of 500: edges alone never meet. */
  @Test
  void lamps_of_two_periods_may_never_be_lit_together() {
    Rhythm slow = rhythm("slow", 60, 30, false);
    Rhythm quick = rhythm("quick", 120, 30, true);
    assertThat(Moment.of(List.of(slow, quick), List.of())).hasSize(2);
    // What filaments of two periods draw between two instants may be more than at either.
    assertThat(Moment.of(List.of(), List.of(slow, quick))).hasSize(1);
  }

  @Test
  void a_filament_still_glows_when_a_lamp_that_switches_takes_its_turn() {
    Rhythm early = rhythm("early", 60, 50, false);
    Rhythm late = rhythm("late", 60, 50, true);
    assertThat(Moment.of(List.of(early), List.of(late)))
        .containsExactly(new Moment(Set.of("early"), Set.of("late")));
  }

  @Test
  void too_many_moments_to_tell_apart_are_one_at_which_all_is_lit() {
    List<Rhythm> many = new ArrayList<>();
    for (int rate : List.of(50, 60, 75, 80, 100, 120, 150)) {
      many.add(rhythm("early-" + rate, rate, 50, false));
      many.add(rhythm("late-" + rate, rate, 50, true));
    }
    assertThat(Moment.of(many.subList(0, 12), List.of())).hasSize(64);
    assertThat(Moment.of(many, List.of()))
        .singleElement()
        .satisfies(m -> assertThat(m.switched()).hasSize(14));
    assertThat(Moment.of(many.subList(0, 8), many.subList(0, 6)))
        .singleElement()
        .satisfies(
            m -> {
              assertThat(m.switched()).hasSize(8);
              assertThat(m.glowing()).hasSize(6);
            });
  }

  @Test
  void without_rhythms_there_is_one_moment() {
    assertThat(Moment.of(List.of(), List.of())).containsExactly(new Moment(Set.of(), Set.of()));
  }

  private static Set<Set<String>> everyMillisecond(List<Rhythm> rhythms) {
    Set<Set<String>> all = new LinkedHashSet<>();
    for (int ms = 0; ms < AROUND; ms++) {
      int now = ms;
      all.add(
          rhythms.stream()
              .filter(r -> isLit(r, now))
              .map(Rhythm::name)
              .collect(Collectors.toSet()));
    }
    return all;
  }

  /** As readers of a table do: dark in its first part and lit in the rest, or the other way. */
  private static boolean isLit(Rhythm rhythm, int ms) {
    int period = rhythm.periodMillis();
    int lit = rhythm.litMillis();
    int first = rhythm.startsDark() ? period - lit : lit;
    return (ms % period < first) != rhythm.startsDark();
  }

  private static Set<Set<String>> largest(Set<Set<String>> all) {
    return all.stream()
        .filter(s -> all.stream().noneMatch(o -> !o.equals(s) && o.containsAll(s)))
        .collect(Collectors.toSet());
  }

  private static Rhythm rhythm(String name, int perMinute, int percent, boolean dark) {
    return new Rhythm(
        name, perMinute, percent, dark, new SourceFile("book.aspects", "").span(0, 0));
  }
}
