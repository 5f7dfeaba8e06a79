package dev.doublet.check.coverage;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** However little time there is, a signal with meaningless pictures is never passed over. */
class MeaninglessPicturesTest {
  private static final Map<String, String> FILES =
      Map.of(
          "layout.yaml",
          """
          layout: Coalpit Yard
          rulebook: book.aspects
          otherwise: most-restrictive
          controllers:
            west:
              flash: 28672
              ram: 1536
              chains:
                main:
                  signals:
                  - {name: W1, form: three-head, heads: [searchlight, searchlight, searchlight], by: aspect-number}
          """,
          "book.aspects",
          """
          rulebook "Brackwater & Northern"
          speeds in mph { normal 60 }
          colours { red yellow green }
          head searchlight { lamp main shows red, yellow, green }
          form three-head { top, middle, bottom }
          aspect "Clear" { number 1  allows normal
            on three-head show green over any over any or any over green over (red or yellow)
              or yellow over (yellow or dark) over green or any over any over (dark or green) }
          aspect "Stop" { number 0  allows stop  on three-head show any over red over any }
          """);

  @Test
  void whatCouldNotBeWorkedOutInTimeIsSaid() {
    assertThat(found(new MeaninglessPictures(0)))
        .extracting(Diagnostic::message)
        .containsExactly(
            "it takes too long to tell whether the rulebook gives no meaning to some of the 64 pictures that signal W1 can make");
  }

  @Tag("slow")
  @Test
  void moreTimeTellsFirstThatThereAreSomeAndThenHowMany() {
    Set<String> messages = new LinkedHashSet<>();
    for (int budget = 0; budget < 1_000; budget++) {
      List<Diagnostic> found = found(new MeaninglessPictures(budget));
      assertThat(found).hasSize(1);
      messages.add(found.get(0).message());
    }
    // Four to the power of three, less what the book defines, was counted by hand: neither green on
    // top, nor green or red in the middle, nor green or dark at the bottom.
    assertThat(messages)
        .hasSizeBetween(2, 3)
        .endsWith("the rulebook gives no meaning to 12 of the 64 pictures that signal W1 can make")
        .allMatch(m -> m.matches(".*gives no meaning to (some|12) of the 64 pictures.*"));
    assertThat(found(new MeaninglessPictures()).get(0).message())
        .isEqualTo(messages.stream().reduce((first, last) -> last).orElseThrow());
  }

  private static List<Diagnostic> found(MeaninglessPictures check) {
    return check.find(
        LayoutFacts.of(
            LayoutResolver.resolve("layout.yaml", path -> new SourceFile(path, FILES.get(path)))
                .value()
                .orElseThrow(),
            CheckOptions.ALL));
  }
}
