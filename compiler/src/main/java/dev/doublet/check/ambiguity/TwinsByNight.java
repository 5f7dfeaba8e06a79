package dev.doublet.check.ambiguity;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.BookFacts.Look;
import dev.doublet.facts.PatternTable;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Aspects that are told apart by the positions of arms, and by night look alike. */
public final class TwinsByNight implements Check.OfBook {

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    Map<Display, Display> lamps = facts.book().byNight();
    if (lamps.isEmpty()) {
      return found;
    }
    TwinFindings findings = new TwinFindings(this, Severity.WARNING, "look alike by night");
    for (Look look : facts.looks()) {
      PatternTable night = PatternTable.of(facts, look, d -> lamps.getOrDefault(d, d));
      PatternTable day = PatternTable.of(facts, look);
      found.addAll(
          findings.of(
              look,
              Twins.onlySeen(look, night, day, Twins.BUDGET),
              (finding, twins) -> reasoned(finding, look, twins)));
    }
    return found;
  }

  private static Diagnostic reasoned(Diagnostic finding, Look look, Twins.Picture twins) {
    return finding
        .because(
            "by day an arm is read by its position, by night by the colour of its lamp, and one picture has one name",
            "49 CFR 236.23(c)")
        .help(
            Words.say(
                "let the lamp show another colour in %s of the positions, or say why it may stay: accept twins-by-night of %s on %s because \"…\"",
                twins.shown().size() == 2 ? "one" : "all but one",
                TwinFindings.names(twins.shown()),
                String.join(", ", look.forms().stream().map(Form::name).toList())));
  }
}
