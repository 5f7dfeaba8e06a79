package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Movement;
import dev.doublet.rulebook.Rulebook;
import java.util.List;

/** A rulebook none of whose aspects is a plain stop. */
public final class NoPlainStop implements Check.OfBook {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Rulebook book = facts.book();
    boolean stops =
        book.aspects().stream()
            .map(a -> a.permission().here())
            .anyMatch(m -> m instanceof Movement.Stop || m instanceof Movement.Unread);
    boolean needless = book.forms().stream().allMatch(Form::withoutStop);
    return stops || needless || book.aspects().isEmpty()
        ? List.of()
        : List.of(
            finding(Severity.WARNING, book.span(), "no aspect of this rulebook is a plain stop")
                .because(
                    "a signal that must not be passed has nothing to show (common practice: every book has such an aspect)")
                .help("add an aspect that allows stop, or write \"without stop\" after the forms"));
  }
}
