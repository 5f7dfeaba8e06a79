package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class PlacesTest {
  private static final Span SPAN = new Span(new SourceFile("f", ""), 0, 0);

  @Test
  void names_that_say_a_direction_are_taken_at_their_word() {
    LampPlaces places = of(List.of("left", "right", "above"));
    assertThat(places.lamps())
        .containsExactly(
            new LampPlaces.Place(-1, 0.5),
            new LampPlaces.Place(1, 0.5),
            new LampPlaces.Place(0, -0.5));
  }

  /** Up to 127 LEDs hang on a kind; their picture is to stay one that a page can show. */
  @Test
  void lamps_of_no_direction_stand_in_a_column_and_many_in_rows_about_as_wide_as_high() {
    for (int lamps = 1; lamps <= 127; lamps++) {
      LampPlaces places = of(IntStream.range(0, lamps).mapToObj(i -> "l" + i).toList());
      assertThat(places.lamps()).hasSize(lamps).doesNotHaveDuplicates();
      assertThat(places.lamps())
          .isSortedAccordingTo(
              Comparator.comparingDouble(LampPlaces.Place::down)
                  .thenComparingDouble(LampPlaces.Place::right));
      if (lamps <= 9) {
        assertThat(places.width()).isZero();
      } else {
        assertThat(places.width() - places.height()).isBetween(0.0, 1.0);
      }
    }
  }

  private static LampPlaces of(List<String> names) {
    List<Lamp> lamps = names.stream().map(name -> new Lamp(name, List.of(), SPAN)).toList();
    return LampPlaces.of(new HeadType("head", lamps, List.of(), SPAN));
  }
}
