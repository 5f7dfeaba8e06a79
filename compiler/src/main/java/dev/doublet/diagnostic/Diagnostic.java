package dev.doublet.diagnostic;

import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * One thing that Doublet says about a text. The message stands alone; the rest explains it.
 *
 * @param name stable kebab-case name, the same everywhere
 * @param tier at what depth it was found
 * @param severity how much it matters
 * @param message what is wrong, in the rulebook's own words
 * @param primary where
 * @param related other places that matter: each conflicting row, each place that defined it
 * @param facts witnesses and figures, in the order to show them
 * @param why why it matters, with the published source where there is one; may be empty
 * @param help what to do; may be empty
 * @param fixes changes that would mend it, best first
 * @param about names of what it is about, all that an {@link Acceptance} must name; empty when it
 *     cannot be accepted
 */
public record Diagnostic(
    String name,
    Tier tier,
    Severity severity,
    String message,
    Label primary,
    List<Label> related,
    List<Fact> facts,
    String why,
    String help,
    List<Fix> fixes,
    List<String> about) {

  /** By file and place, then severity, then name and message. */
  public static final Comparator<Diagnostic> ORDER =
      Comparator.comparing((Diagnostic d) -> d.primary().span())
          .thenComparing(Diagnostic::severity)
          .thenComparing(Diagnostic::name)
          .thenComparing(Diagnostic::message);

  /** Copies the lists. */
  public Diagnostic {
    related = List.copyOf(related);
    facts = List.copyOf(facts);
    fixes = List.copyOf(fixes);
    about = List.copyOf(about);
  }

  /** An error with a message and a place, to be told more with the methods below. */
  public static Diagnostic error(String name, Tier tier, Span span, String message) {
    return of(name, tier, Severity.ERROR, span, message);
  }

  /** A warning with a message and a place. */
  public static Diagnostic warning(String name, Tier tier, Span span, String message) {
    return of(name, tier, Severity.WARNING, span, message);
  }

  /** A note with a message and a place. */
  public static Diagnostic note(String name, Tier tier, Span span, String message) {
    return of(name, tier, Severity.NOTE, span, message);
  }

  /** A diagnostic of any severity. */
  public static Diagnostic of(
      String name, Tier tier, Severity severity, Span span, String message) {
    return new Diagnostic(
        name,
        tier,
        severity,
        message,
        new Label(span, ""),
        List.of(),
        List.of(),
        "",
        "",
        List.of(),
        List.of());
  }

  /** True for errors and warnings. */
  public boolean isFinding() {
    return severity != Severity.NOTE;
  }

  /** The same with words under the primary place. */
  public Diagnostic label(String text) {
    Label labelled = new Label(primary.span(), text);
    return new Diagnostic(
        name, tier, severity, message, labelled, related, facts, why, help, fixes, about);
  }

  /** The same with one more place. */
  public Diagnostic related(Span span, String text) {
    List<Label> more = plus(related, new Label(span, text));
    return new Diagnostic(
        name, tier, severity, message, primary, more, facts, why, help, fixes, about);
  }

  /** The same with one more named value. */
  public Diagnostic fact(String what, String value) {
    List<Fact> more = plus(facts, new Fact(what, value));
    return new Diagnostic(
        name, tier, severity, message, primary, related, more, why, help, fixes, about);
  }

  /** The same with the reason why it matters. */
  public Diagnostic because(String reason) {
    return new Diagnostic(
        name, tier, severity, message, primary, related, facts, reason, help, fixes, about);
  }

  /** The same with what to do. */
  public Diagnostic help(String advice) {
    return new Diagnostic(
        name, tier, severity, message, primary, related, facts, why, advice, fixes, about);
  }

  /** The same with one more change that would mend it. */
  public Diagnostic fix(String title, Span span, String replacement, boolean safe) {
    List<Fix> more = plus(fixes, new Fix(title, span, replacement, safe));
    return new Diagnostic(
        name, tier, severity, message, primary, related, facts, why, help, more, about);
  }

  /** The same, about something that an acceptance can name. */
  public Diagnostic about(List<String> names) {
    return new Diagnostic(
        name, tier, severity, message, primary, related, facts, why, help, fixes, names);
  }

  /** As a note, with the reason why it may stay. */
  public Diagnostic accepted(Acceptance acceptance) {
    Diagnostic note =
        new Diagnostic(
            name,
            tier,
            Severity.NOTE,
            message,
            primary,
            related,
            facts,
            why,
            "nothing, as long as the reason holds",
            List.of(),
            about);
    return note.related(acceptance.span(), "accepted here").fact("accepted", acceptance.reason());
  }

  private static <T> List<T> plus(List<T> list, T last) {
    List<T> more = new ArrayList<>(list);
    more.add(last);
    return more;
  }
}
