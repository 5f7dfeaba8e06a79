package dev.doublet.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.bench.GeneratedBook;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class AlikeSitesTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "most restrictive",
        "lit",
        "any fitting",
        "\"Aspect 2\" where yellow shows, else most restrictive fitting"
      })
  void forms_that_differ_in_name_alone_are_told_as_if_each_were_tried(String rule) {
    String text =
        GeneratedBook.withNumbers(50, 3)
                .replace("read as most restrictive", "read as " + rule)
                .replace(
                    "show red over red over red over red",
                    "show red over red over red over red" + " on three show red over red over red ")
            + "form three { a, b, c }\n"
            + "form low dwarf { speed usually dark, a, b, c, d }\n"
            + "aspect \"Low\" { allows slow on low show green over red over red over red }\n"
            + "aspect \"Three\" { allows slow on three show green over red over dark }\n";
    Rulebook book =
        RulebookResolver.resolve("book.aspects", path -> new SourceFile(path, text))
            .value()
            .orElseThrow();
    List<Site> sites = Site.of(book);

    List<TrialResult> together = TrialResult.singly(sites);

    assertThat(AlikeSites.of(sites.get(0), sites.get(1))).isPresent();
    assertThat(AlikeSites.of(sites.get(0), sites.get(sites.size() - 1))).isEmpty();
    // As a failure would print whole books, what is compared is not shown.
    List<TrialResult> singly =
        sites.stream().flatMap(s -> TrialResult.singly(List.of(s)).stream()).toList();
    assertThat(together.equals(singly)).isTrue();
    assertThat(together.get(1).hazards().isEmpty()).isFalse();
  }
}
