package dev.doublet.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import java.util.List;
import org.junit.jupiter.api.Test;

/** How checks are run: an error in one tier stops the later ones, and nothing else does. */
class ChecksTest {
  private static final SourceFile FILE = new SourceFile("yard.aspects", "aspect");

  /** A check that always finds one thing. */
  private record AlwaysFails(Tier tier, Severity severity) implements Check<String> {
    @Override
    public List<Diagnostic> find(String facts) {
      return List.of(finding(severity, FILE.span(0, 6), facts));
    }
  }

  @Test
  void an_error_stops_later_tiers_and_says_how_many_checks_did_not_run() {
    Checks.Findings found =
        Checks.run(
            List.of(
                new AlwaysFails(Tier.MEANING, Severity.ERROR),
                new AlwaysFails(Tier.STRUCTURE, Severity.ERROR),
                new AlwaysFails(Tier.STRUCTURE, Severity.WARNING),
                new AlwaysFails(Tier.MEANING, Severity.NOTE)),
            "broken",
            List.of());
    assertThat(found.diagnostics()).hasSize(2).allMatch(d -> d.tier() == Tier.STRUCTURE);
    assertThat(found.skipped()).isEqualTo(2);
  }

  @Test
  void a_warning_stops_nothing() {
    Checks.Findings found =
        Checks.run(
            List.of(
                new AlwaysFails(Tier.STRUCTURE, Severity.WARNING),
                new AlwaysFails(Tier.MEANING, Severity.ERROR)),
            "doubtful",
            List.of());
    assertThat(found.diagnostics()).hasSize(2);
    assertThat(found.skipped()).isZero();
  }

  @Test
  void errors_of_earlier_stages_count_too() {
    Diagnostic before =
        Diagnostic.error("unknown-name", Tier.NAMES, FILE.span(0, 6), "nothing is called aspect");
    Checks.Findings found =
        Checks.run(
            List.of(new AlwaysFails(Tier.STRUCTURE, Severity.ERROR)), "later", List.of(before));
    assertThat(found.diagnostics()).isEmpty();
    assertThat(found.skipped()).isEqualTo(1);
  }

  @Test
  void a_check_is_called_by_its_class_in_kebab_case() {
    assertThat(new AlwaysFails(Tier.MEANING, Severity.NOTE).name()).isEqualTo("always-fails");
  }
}
