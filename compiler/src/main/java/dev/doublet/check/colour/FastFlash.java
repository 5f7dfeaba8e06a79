package dev.doublet.check.colour;

import dev.doublet.check.Check;
import dev.doublet.colour.Seeing;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Rhythm;
import java.util.List;

/** A rhythm faster than is safe for all who see it. */
public final class FastFlash implements Check.OfBook {
  private static final int MOST = 60 * Seeing.SAFE_FLASHES;

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    return facts.book().rhythms().stream()
        .filter(rhythm -> rhythm.perMinute() > MOST)
        .map(this::report)
        .toList();
  }

  private Diagnostic report(Rhythm rhythm) {
    return finding(
            Severity.WARNING,
            rhythm.span(),
            Words.say("%s is faster than three flashes a second", rhythm.name()))
        .about(List.of(rhythm.name()))
        .label(rhythm.perMinute() + " per minute")
        .word("rhythm", rhythm.name())
        .number("rate", rhythm.perMinute(), "per minute")
        .because(
            "many lamps flashing together faster than three times a second can harm photosensitive people",
            "WCAG 2.2, success criterion 2.3.1")
        .help("choose a rate of at most {most} per minute", Datum.of("most", MOST));
  }
}
