package dev.doublet.check.ambiguity;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.CheckOptions;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Pictures that no pattern names can be shared too. */
class TwinAspectsTest {

  @Test
  void a_display_that_no_pattern_names_is_shared_when_all_named_ones_are_settled() {
    List<Diagnostic> found = twins("dark or red");
    assertThat(found).hasSize(1);
    assertThat(found.get(0).message()).isEqualTo("\"One\" and \"Two\" look alike on form f");
    assertThat(found.get(0).facts().get(0).value()).isEqualTo("green");
  }

  @Test
  void nothing_is_shared_when_every_display_of_the_book_is_settled() {
    assertThat(twins("dark or red or green")).isEmpty();
  }

  @Test
  void what_could_not_be_worked_out_in_time_is_said() {
    List<Diagnostic> found = twins("dark or red or green", new TwinAspects(1));
    assertThat(found)
        .extracting(Diagnostic::message)
        .containsExactly(
            "it takes too long to tell whether \"One\" and \"Two\" look alike on form f");
    assertThat(found).allMatch(Diagnostic::isFinding);
    assertThat(found.get(0).facts()).isEmpty();
    assertThat(found.get(0).about()).containsExactlyInAnyOrder("f", "One", "Two");
  }

  @Test
  void all_pairs_that_could_not_be_worked_out_are_named() {
    List<Diagnostic> found =
        new TwinAspects(1)
            .find(
                book(
                    """
                    rulebook "Brackwater & Northern"
                    colours { red green }
                    plate a  plate b  plate c
                    form f { top }
                    aspect "One" { allows stop  on f with a plate show any }
                    aspect "Two" { allows stop  on f with b plate show any }
                    aspect "Three" { allows stop  on f with c plate show any }
                    aspect "Both" { allows stop
                      on f with a and b plates show (dark or red or green)
                      on f with a and c plates show (dark or red or green)
                      on f with b and c plates show (dark or red or green) }
                    """));
    assertThat(found)
        .extracting(Diagnostic::message)
        .containsExactly(
            "it takes too long to tell whether \"Three\" and \"Both\" look alike on form f");
    assertThat(found.get(0).facts().get(0).value())
        .isEqualTo(
            "\"Two\" and \"Both\"; \"One\" and \"Both\"; \"One\" and \"Three\";"
                + " \"One\" and \"Two\"; \"Two\" and \"Three\"");
    assertThat(found.get(0).about()).containsOnlyOnce("f").contains("Both", "One", "Two", "Three");
  }

  @Test
  void aspects_of_one_picture_are_told_in_one_finding_with_a_pattern_of_each() {
    List<Diagnostic> found =
        new TwinAspects()
            .find(
                book(
                    """
                    rulebook "Brackwater & Northern"
                    colours { red yellow green }
                    form f { top }
                    aspect "One" { allows stop  on f show green or red }
                    aspect "Two" { allows stop  on f show red or yellow }
                    aspect "Three" { allows stop  on f show red }
                    aspect "Four" { allows stop  on f show yellow }
                    """));
    assertThat(found)
        .extracting(Diagnostic::message)
        .containsExactlyInAnyOrder(
            "\"One\", \"Two\" and \"Three\" look alike on form f",
            "\"Two\" and \"Four\" look alike on form f");
  }

  /** Two aspects meet on signals with both plates, unless a pattern that names both settles it. */
  private static List<Diagnostic> twins(String settled) {
    return twins(settled, new TwinAspects());
  }

  private static List<Diagnostic> twins(String settled, TwinAspects check) {
    String text =
        """
        rulebook "Brackwater & Northern"
        colours { red green }
        plate a  plate b
        form f { top }
        aspect "One" { allows stop  on f with a plate show any }
        aspect "Two" { allows stop  on f with b plate show any }
        aspect "Both" { allows stop  on f with a and b plates show (SETTLED) }
        """
            .replace("SETTLED", settled);
    return check.find(book(text));
  }

  private static BookFacts book(String text) {
    Rulebook book =
        RulebookResolver.resolve("book.aspects", path -> new SourceFile(path, text))
            .value()
            .orElseThrow();
    return BookFacts.of(book, CheckOptions.ALL);
  }
}
