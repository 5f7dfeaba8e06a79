package dev.doublet.check.failure;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.failure.Site;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Pattern;
import java.util.List;

/** A pattern that one failed lamp, flasher or plate turns into a less restrictive aspect. */
public final class RiskyPattern implements Check.OfBook {

  @Override
  public boolean takesLong() {
    return true;
  }

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    // A book may be a published one, which nobody here can change, so nothing is an error.
    List<Diagnostic> found =
        new Report(this, facts.book(), fault -> Severity.WARNING)
            .of(Site.of(facts.book()), facts.asked());
    for (Aspect aspect : facts.book().aspects()) {
      aspect.patterns().stream()
          .filter(Site::isCutShort)
          .forEach(p -> found.add(notAllTried(aspect, p)));
    }
    return found;
  }

  private Diagnostic notAllTried(Aspect aspect, Pattern pattern) {
    return finding(
            Severity.WARNING,
            pattern.span(),
            Words.say(
                "\"%s\" has so many pictures on form %s that faults were not tried at all of them",
                aspect.name(), pattern.form().name()))
        .word("aspect", aspect.name())
        .word("form", pattern.form().name())
        .because(Words.say("of one pattern, at most %,d are tried", Site.MOST_PICTURES))
        .help("write fewer displays in brackets: those that a signal really puts up");
  }
}
