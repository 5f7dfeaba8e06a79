package dev.doublet.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.source.SourceFile;
import java.util.HashSet;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

/** Which aspects may follow one another. */
class SequenceTest {
  /** The oracle walks every path of so many signals as there are aspects. */
  @Property(tries = 200, seed = "1957")
  void what_is_reached_is_what_some_path_reaches(@ForAll long start) {
    Rulebook book = new RandomBook(start).book();
    Sequence sequence = Sequence.of(book);
    for (Aspect from : book.aspects()) {
      Set<Aspect> reached = new HashSet<>();
      Set<Aspect> front = Set.of(from);
      for (int signal = 0; signal < book.aspects().size(); signal++) {
        Set<Aspect> ahead = new HashSet<>();
        for (Aspect at : front) {
          book.aspects().stream().filter(a -> Sequence.mayFollow(at, a)).forEach(ahead::add);
        }
        reached.addAll(ahead);
        front = ahead;
      }
      assertThat(sequence.reached(from)).containsExactlyInAnyOrderElementsOf(reached);
    }
  }

  /** A train that may be met by an aspect may also be met by any that permits more, and says so. */
  @Property(tries = 200, seed = "1957")
  void a_better_aspect_may_stand_wherever_a_worse_one_may(@ForAll long start) {
    Rulebook book = new RandomBook(start).book();
    for (Aspect here : book.aspects()) {
      for (Aspect worse : Sequence.of(book).next(here)) {
        for (Aspect better : book.aspects()) {
          boolean more =
              worse.permission().here().permitsNoMoreThan(better.permission().here())
                  && worse
                      .permission()
                      .announced()
                      .permitsNoMoreThan(better.permission().announced())
                  && !(worse.permission().here() instanceof Movement.Stop);
          assertThat(!more || Sequence.mayFollow(here, better))
              .as("%s, then %s or %s", here.name(), worse.name(), better.name())
              .isTrue();
        }
      }
    }
  }

  @Property(tries = 200, seed = "1957")
  void what_an_aspect_tells_of_the_second_signal_holds_for_all_that_may_stand_there(
      @ForAll long start) {
    Rulebook book = new RandomBook(start).book();
    Sequence sequence = Sequence.of(book);
    for (Aspect here : book.aspects()) {
      Movement told = here.permission().second();
      for (Aspect second : sequence.second(here)) {
        assertThat(
                told instanceof Movement.Unsaid
                    || (told instanceof Movement.NotStop
                        ? !second.permission().here().entry().equals(Pace.NONE)
                        : told.entry().atMost(second.permission().here().entry())))
            .as("%s, and %s at the second signal", here.name(), second.name())
            .isTrue();
        assertThat(sequence.before(second)).isNotEmpty();
      }
      assertThat(book.aspects().stream().filter(a -> sequence.next(a).contains(here)).toList())
          .isEqualTo(sequence.before(here));
    }
  }

  /** Nobody knows whether what stands in no order is fast, or what it leads to. */
  @Test
  void the_fastest_are_those_that_no_other_is_known_to_exceed() {
    String text =
        """
        rulebook "Coalpit Yard"
        speeds in mph { line 60  slow 15  away unranked }
        colours { red }
        form f { top }
        aspect "Clear" { allows line then line }
        aspect "Slow" { allows slow then line }
        aspect "Away" { allows away then line }
        aspect "To Away" { allows line then away }
        aspect "Caution" { allows line then stop }
        aspect "Stop" { allows stop }
        """;
    Rulebook book =
        RulebookResolver.resolve("book.aspects", path -> new SourceFile(path, text))
            .value()
            .orElseThrow();
    assertThat(Sequence.of(book).fastest()).extracting(Aspect::name).containsExactly("Clear");
  }
}
