package dev.doublet.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.check.Check.Needs;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** How checks are run: an error in one tier stops the later ones, and nothing else does. */
class ChecksTest {
  private static final Set<Needs> ALL = Set.of(Needs.values());
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
            ALL,
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
            ALL,
            List.of());
    assertThat(found.diagnostics()).hasSize(2);
    assertThat(found.skipped()).isZero();
  }

  /** The same, of something that is not there. */
  private record MissesSomething(Tier tier, Severity severity, Needs needs)
      implements Check<String> {
    @Override
    public List<Diagnostic> find(String facts) {
      return List.of(finding(severity, FILE.span(0, 6), facts));
    }
  }

  @Test
  void a_check_of_what_is_absent_runs_only_when_all_of_it_was_read() {
    Checks.Findings found =
        Checks.run(
            List.of(
                new AlwaysFails(Tier.MEANING, Severity.WARNING),
                new MissesSomething(Tier.MEANING, Severity.WARNING, Needs.BOOK),
                new MissesSomething(Tier.MEANING, Severity.WARNING, Needs.LAYOUT)),
            "half read",
            Set.of(Needs.NOTHING, Needs.BOOK),
            List.of());
    assertThat(found.diagnostics())
        .extracting(Diagnostic::name)
        .containsExactly("always-fails", "misses-something");
    assertThat(found.skipped()).isEqualTo(1);
  }

  @Test
  void errors_of_earlier_checks_count_too() {
    Diagnostic before =
        Diagnostic.error("unknown-name", Tier.NAMES, FILE.span(0, 6), "nothing is called aspect");
    Checks.Findings found =
        Checks.run(
            List.of(new AlwaysFails(Tier.STRUCTURE, Severity.ERROR)),
            "later",
            ALL,
            List.of(before));
    assertThat(found.diagnostics()).isEmpty();
    assertThat(found.skipped()).isEqualTo(1);
  }

  @Test
  void a_check_is_called_by_its_class_in_kebab_case() {
    assertThat(new AlwaysFails(Tier.MEANING, Severity.NOTE).name()).isEqualTo("always-fails");
  }
}
