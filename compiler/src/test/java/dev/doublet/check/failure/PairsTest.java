package dev.doublet.check.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.facts.CheckOptions;
import dev.doublet.failure.Pairs;
import dev.doublet.failure.Site;
import dev.doublet.failure.TrialResult;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.util.List;
import org.junit.jupiter.api.Test;

/** How many pairs of faults are tried. */
class PairsTest {
  private static final String BOOK =
      """
      rulebook "Three heads"
      speeds in mph { line 60 }
      colours { red green }
      form three-head { top, middle, bottom }
      aspect "Clear" { number 1  allows line then line  on three-head show green over dark over dark }
      aspect "Stop"  { number 0  allows stop            on three-head show red over red over red }
      """;

  @Test
  void three_lamps_make_three_pairs_and_one_lamp_makes_none() {
    TrialResult pairs = Pairs.on(sites(), Pairs.MOST_STEPS).get(0);
    assertThat(pairs.all()).isEqualTo(3);
    assertThat(pairs.untried()).isZero();
  }

  @Test
  void each_picture_has_its_share_of_the_steps_and_what_is_left_out_is_counted() {
    // Two pictures share 16 steps; a pair at "Stop", of which three lamps are lit, takes four.
    TrialResult pairs = Pairs.on(sites(), 16).get(0);
    assertThat(pairs.all()).isEqualTo(2);
    assertThat(pairs.untried()).isEqualTo(1);
  }

  @Test
  void that_pairs_are_left_out_is_a_warning_and_is_told_in_the_summary() {
    List<Site> sites = sites();
    Report report = new Report(new RiskyPattern(), sites.get(0).crew().book(), f -> Severity.ERROR);
    assertThat(report.of(sites, new CheckOptions(false, 2), 16))
        .filteredOn(d -> d.severity() == Severity.WARNING)
        .extracting(Diagnostic::message)
        .contains("on form three-head, 1 pair of faults was not tried: there are too many");
    assertThat(FaultSummary.results(Pairs.on(sites, 16).get(0)))
        .startsWith("2 tried, ")
        .endsWith("; 1 more not tried, as they are too many");
    assertThat(report.of(sites, new CheckOptions(false, 2)))
        .noneMatch(d -> d.message().contains("too many"));
  }

  private static List<Site> sites() {
    SourceFile file = new SourceFile("book.aspects", BOOK);
    Rulebook book = RulebookResolver.resolve("book.aspects", path -> file).value().orElseThrow();
    return Site.of(book);
  }
}
