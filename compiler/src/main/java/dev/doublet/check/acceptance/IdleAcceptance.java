package dev.doublet.check.acceptance;

import dev.doublet.check.AcceptanceOutcome;
import dev.doublet.check.Check;
import dev.doublet.diagnostic.Acceptance;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.FindingNames;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.source.Nearest;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** An acceptance that takes no warning, or names more than its warnings are about. */
public final class IdleAcceptance implements Check.OfFindings {
  private static final String COVER =
      "say in the rulebook what covers the hazard: cover lamp-out because \"…\"";

  /** Warnings that are answered in a way of their own, and which. */
  private static final Map<String, String> ANSWERED =
      Map.of(
          "false-proceed",
          COVER,
          "risky-pattern",
          COVER,
          "unanswered-command",
          "say what such a command does: \"otherwise: keep\" or \"otherwise: most-restrictive\"");

  @Override
  public Needs needs() {
    return Needs.LAYOUT;
  }

  @Override
  public List<Diagnostic> find(AcceptanceOutcome facts) {
    List<Diagnostic> found = new ArrayList<>();
    facts
        .taken()
        .forEach(
            (acceptance, taken) -> {
              List<String> idle = new ArrayList<>(acceptance.of());
              taken.forEach(d -> idle.removeAll(d.about()));
              if (taken.isEmpty()) {
                found.add(takesNothing(acceptance, facts.diagnostics()));
              } else if (!idle.isEmpty()) {
                found.add(
                    idle(acceptance, "nothing is left to accept of " + quoted(idle))
                        .help("take away " + (idle.size() == 1 ? "this name" : "these names")));
              }
            });
    return found;
  }

  private Diagnostic takesNothing(Acceptance acceptance, List<Diagnostic> all) {
    String check = acceptance.check();
    if (!FindingNames.ALL.contains(check)) {
      Optional<String> near = Nearest.to(check, FindingNames.ALL);
      return idle(acceptance, Words.say("no finding is called \"%s\"", check))
          .help(
              near.map(n -> "did you mean " + n + "?")
                  .orElse("write the name that stands in square brackets below the warning"));
    }
    if (ANSWERED.containsKey(check)) {
      return idle(acceptance, check + " cannot be accepted: there is another way to answer it")
          .help(ANSWERED.get(check));
    }
    List<Diagnostic> near =
        all.stream()
            .filter(d -> d.name().equals(check) && d.isFinding())
            .filter(d -> d.about().stream().anyMatch(acceptance.of()::contains))
            .toList();
    if (near.isEmpty()) {
      return idle(
              acceptance,
              Words.say("there is no warning %s of %s to accept", check, quoted(acceptance.of())))
          .help("take this acceptance away");
    }
    Diagnostic first = near.get(0);
    List<String> about = first.about().stream().sorted().toList();
    return acceptance.speaksOf(first)
        ? idle(acceptance, Words.say("%s is an error here, and cannot be accepted", check))
            .related(first.primary().span(), "the error")
            .help("mend the error, and take this acceptance away")
        : idle(
                acceptance,
                Words.say(
                    "this names %s, but the warning %s is about %s",
                    quoted(acceptance.of()), check, quoted(about)))
            .words("about", about)
            .related(first.primary().span(), "the warning")
            .help("name all that it is about, so that no other warning is accepted with it");
  }

  /** In quotes, as two colours that look alike are one name: "amber and yellow". */
  private static String quoted(List<String> names) {
    return Words.quoted(names, name -> name);
  }

  private Diagnostic idle(Acceptance acceptance, String message) {
    return finding(Severity.WARNING, acceptance.span(), message)
        .word("check", acceptance.check())
        .words("of", acceptance.of())
        .because("an acceptance that accepts nothing would hide the next warning");
  }
}
