package dev.doublet.check.ambiguity;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.CheckOptions;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TwinsByNightTest {

  /** Every two of 46 are 1,035 pairs. */
  @Test
  void pairs_beyond_a_thousand_are_counted() {
    List<Diagnostic> found = twins(46);
    assertThat(found).hasSize(1_001);
    Diagnostic more = found.get(1_000);
    assertThat(more.message())
        .isEqualTo("35 more pairs of patterns look alike by night on form home");
    assertThat(more.about()).containsExactly("home");
  }

  /** Every two of 45 are 990 pairs. */
  @Test
  void up_to_a_thousand_pairs_are_all_told() {
    assertThat(twins(45)).hasSize(990).allMatch(twin -> twin.about().size() == 3);
  }

  private static List<Diagnostic> twins(int aspects) {
    String positions =
        IntStream.range(0, aspects)
            .mapToObj(i -> "p" + i + " in green")
            .collect(Collectors.joining(", "));
    String text =
        "rulebook \"Brackwater & Northern\"\ncolours { green }\narm a shows "
            + positions
            + "\nform home { main }\n"
            + IntStream.range(0, aspects)
                .mapToObj(i -> "aspect \"A" + i + "\" { allows stop  on home show p" + i + " }\n")
                .collect(Collectors.joining());
    Rulebook book =
        RulebookResolver.resolve("book.aspects", path -> new SourceFile(path, text))
            .value()
            .orElseThrow();
    return new TwinsByNight().find(BookFacts.of(book, CheckOptions.ALL));
  }
}
