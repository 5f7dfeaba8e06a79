package dev.doublet.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.check.acceptance.IdleAcceptance;
import dev.doublet.diagnostic.Acceptance;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What acceptances take, and what is said of those that take nothing. */
class AcceptanceOutcomeTest {
  private static final Span HERE = new SourceFile("layout.yaml", "accept").span(0, 6);

  @Test
  void a_warning_is_accepted_by_who_names_all_that_it_is_about() {
    AcceptanceOutcome accepted =
        accepted(acceptance("Y1", "Y2"), warning("Y1"), warning("Y2", "Y1"));
    assertThat(accepted.diagnostics()).allMatch(d -> d.severity() == Severity.NOTE);
    assertThat(accepted.diagnostics())
        .allSatisfy(
            d -> {
              assertThat(d.facts())
                  .extracting(f -> f.name() + ": " + f.value())
                  .contains("accepted: it is so");
              assertThat(d.related()).extracting(l -> l.text()).contains("accepted here");
            });
    assertThat(idle(accepted)).isEmpty();
  }

  @Test
  void a_warning_about_more_is_not_accepted() {
    AcceptanceOutcome accepted = accepted(acceptance("Y1"), warning("Y1", "Y2"));
    assertThat(accepted.diagnostics()).containsExactly(warning("Y1", "Y2"));
    assertThat(idle(accepted))
        .containsExactly(
            "this names \"Y1\", but the warning lone-white is about \"Y1\" and \"Y2\"");
  }

  @Test
  void a_warning_that_says_not_what_it_is_about_is_never_accepted() {
    AcceptanceOutcome accepted = accepted(acceptance("Y1"), warning());
    assertThat(accepted.diagnostics()).containsExactly(warning());
    assertThat(idle(accepted))
        .containsExactly("there is no warning lone-white of \"Y1\" to accept");
  }

  @ParameterizedTest
  @EnumSource(names = {"ERROR", "NOTE"})
  void nothing_but_a_warning_is_accepted(Severity severity) {
    Diagnostic said =
        Diagnostic.of("lone-white", Tier.MEANING, severity, HERE, "").about(List.of("Y1"));
    AcceptanceOutcome accepted = accepted(acceptance("Y1"), said);
    assertThat(accepted.diagnostics()).containsExactly(said);
    assertThat(idle(accepted))
        .containsExactly(
            severity == Severity.ERROR
                ? "lone-white is an error here, and cannot be accepted"
                : "there is no warning lone-white of \"Y1\" to accept");
  }

  @Test
  void a_warning_of_another_check_is_not_accepted() {
    Diagnostic other =
        Diagnostic.of("fast-flash", Tier.MEANING, Severity.WARNING, HERE, "").about(List.of("Y1"));
    assertThat(accepted(acceptance("Y1"), other).diagnostics()).containsExactly(other);
  }

  @Test
  void two_colours_that_look_alike_are_one_name_and_told_as_one() {
    AcceptanceOutcome accepted =
        accepted(acceptance("amber", "yellow", "rgb"), warning("amber and yellow", "rgb"));
    assertThat(idle(accepted))
        .containsExactly(
            "this names \"amber\", \"rgb\" and \"yellow\","
                + " but the warning lone-white is about \"amber and yellow\" and \"rgb\"");
  }

  @Test
  void a_second_acceptance_of_the_same_is_idle() {
    Acceptance again = new Acceptance("lone-white", List.of("Y1"), "it is so too", HERE);
    AcceptanceOutcome accepted =
        AcceptanceOutcome.of(List.of(acceptance("Y1"), again), List.of(warning("Y1")));
    assertThat(accepted.diagnostics()).hasSize(1);
    assertThat(idle(accepted))
        .containsExactly("there is no warning lone-white of \"Y1\" to accept");
  }

  @Test
  void names_that_no_warning_is_about_are_idle() {
    assertThat(idle(accepted(acceptance("Y1", "Y2", "Y3"), warning("Y2"))))
        .containsExactly("nothing is left to accept of \"Y1\" and \"Y3\"");
  }

  private static AcceptanceOutcome accepted(Acceptance acceptance, Diagnostic... found) {
    return AcceptanceOutcome.of(List.of(acceptance), List.of(found));
  }

  private static List<String> idle(AcceptanceOutcome accepted) {
    return new IdleAcceptance().find(accepted).stream().map(Diagnostic::message).toList();
  }

  private static Acceptance acceptance(String... of) {
    return new Acceptance("lone-white", List.of(of), "it is so", HERE);
  }

  private static Diagnostic warning(String... about) {
    return Diagnostic.of("lone-white", Tier.MEANING, Severity.WARNING, HERE, "")
        .about(List.of(about));
  }
}
