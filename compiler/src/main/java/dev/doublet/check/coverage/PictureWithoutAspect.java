package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.BuildGroup;
import dev.doublet.failure.Repertoire;
import dev.doublet.rulebook.Display;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** Heads commanded by themselves that can be told to show what no aspect means. */
public final class PictureWithoutAspect implements Check.OfLayout {
  private static final int EXAMPLES = 3;

  @Override
  public boolean givesOnlyNotes() {
    return true;
  }

  @Override
  public boolean takesLong() {
    return true;
  }

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (BuildGroup built : facts.told()) {
      Repertoire commanded = Repertoire.of(facts.layout().rulebook(), built.first());
      if (!commanded.meaningless().isEmpty()) {
        found.add(report(built, commanded.meaningless()));
      }
    }
    return found;
  }

  private Diagnostic report(BuildGroup built, List<List<Display>> meaningless) {
    return finding(
            Severity.NOTE,
            built.first().span(),
            Words.say(
                "the heads of %s can be told to show %s that no aspect means",
                built.words(), Words.count(meaningless.size(), "picture")))
        .words("signals", built.names())
        .number("pictures", meaningless.size(), "picture")
        .fact(
            "for one",
            meaningless.stream()
                .limit(EXAMPLES)
                .map(Display::over)
                .collect(Collectors.joining("; ")))
        .because(
            "a crew takes what the rulebook does not define for an imperfectly displayed signal")
        .help(
            "nothing, if whoever commands the heads never leaves them so; or command the signal whole");
  }
}
