package dev.doublet.check;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.List;
import java.util.Locale;

/**
 * One check. It is named for the bad pattern it finds; its page lies beside it.
 *
 * @param <F> the facts it reads
 */
public interface Check<F> {

  /** What this check finds, in any order, each thing once. */
  List<Diagnostic> find(F facts);

  /**
   * How deep it looks, most of them for a meaning; it runs only when no earlier tier has errors.
   */
  default Tier tier() {
    return Tier.MEANING;
  }

  /** What must have been read whole, as it speaks of what is not there; nothing for most. */
  default Needs needs() {
    return Needs.NOTHING;
  }

  /** What must be without a mistake for a check to tell the truth. */
  enum Needs {
    /** It speaks of what it sees; what could not be read only makes it say less. */
    NOTHING,
    /** It speaks of what no aspect, pattern or line of the rulebook says. */
    BOOK,
    /** It speaks of what neither the rulebook nor the layout says. */
    LAYOUT
  }

  /** True when nothing it says is a finding, so that it need not run where notes are not shown. */
  default boolean givesOnlyNotes() {
    return false;
  }

  /** True when it takes longer than an editor can wait for at each keystroke. */
  default boolean takesLong() {
    return false;
  }

  /** The stable name: the class's, in kebab case. */
  default String name() {
    return getClass()
        .getSimpleName()
        .replaceAll("(?<=[a-z])(?=[A-Z])", "-")
        .toLowerCase(Locale.ROOT);
  }

  /** A diagnostic of this check. */
  default Diagnostic finding(Severity severity, Span span, String message) {
    return Diagnostic.of(name(), tier(), severity, span, message);
  }

  /** A check of a rulebook alone. */
  interface OfBook extends Check<BookFacts> {}

  /** A check of texts as they are written: of all that a run read. */
  interface OfTexts extends Check<List<SourceFile>> {}

  /** A check of what the others found. */
  interface OfFindings extends Check<AcceptanceOutcome> {}

  /** A check of a layout with its rulebook. */
  interface OfLayout extends Check<LayoutFacts> {}
}
