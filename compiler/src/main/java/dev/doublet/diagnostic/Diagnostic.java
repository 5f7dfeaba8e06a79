package dev.doublet.diagnostic;

import dev.doublet.source.Span;
import dev.doublet.source.Visible;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;

/**
 * One thing that Doublet says about a text. The message stands alone; the rest explains it.
 *
 * @param name stable kebab-case name, the same everywhere
 * @param tier at what depth it was found
 * @param severity how much it matters
 * @param message what is wrong, in the rulebook's own words
 * @param primary where
 * @param related other places that matter: each conflicting row, each place that defined it
 * @param facts witnesses and figures for people, in the order to show them
 * @param data the same and whatever else the words speak of, for programs
 * @param why why it matters; may be empty
 * @param sources what was published on why it matters, as cited
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
    List<Datum> data,
    String why,
    List<String> sources,
    String help,
    List<Fix> fixes,
    List<String> about) {

  private static final int FURTHER_PLACES = 3;

  /** By file and place, then severity, then name and message. */
  public static final Comparator<Diagnostic> ORDER =
      Comparator.comparing((Diagnostic d) -> d.primary().span())
          .thenComparing(Diagnostic::severity)
          .thenComparing(Diagnostic::name)
          .thenComparing(Diagnostic::message);

  /** Copies the lists, and makes brief what is told of names that are longer than anybody reads. */
  public Diagnostic {
    message = Visible.brief(message);
    why = Visible.brief(why);
    help = Visible.brief(help);
    related = List.copyOf(related);
    facts = List.copyOf(facts);
    data = List.copyOf(data);
    sources = List.copyOf(sources);
    fixes = List.copyOf(fixes);
    about = List.copyOf(about);
  }

  /**
   * An error with a message and a place, to be told more with the methods below.
   *
   * @param message filled with the data, if there are any
   */
  public static Diagnostic error(String name, Tier tier, Span span, String message, Datum... data) {
    return of(name, tier, Severity.ERROR, span, message, data);
  }

  /** A note with a message and a place. */
  public static Diagnostic note(String name, Tier tier, Span span, String message, Datum... data) {
    return of(name, tier, Severity.NOTE, span, message, data);
  }

  /** A diagnostic of any severity. */
  public static Diagnostic of(
      String name, Tier tier, Severity severity, Span span, String message, Datum... data) {
    return new Diagnostic(
        name,
        tier,
        severity,
        Datum.fill(message, data),
        new Label(span, ""),
        List.of(),
        List.of(),
        List.of(data),
        "",
        List.of(),
        "",
        List.of(),
        List.of());
  }

  /** True for errors and warnings. */
  public boolean isFinding() {
    return severity != Severity.NOTE;
  }

  /** The same with words under the primary place, and the data that they are filled with. */
  public Diagnostic label(String text, Datum... more) {
    return with(d -> d.primary = new Label(primary.span(), Datum.fill(text, more))).data(more);
  }

  /** The same with one more place, and the data that its words are filled with. */
  public Diagnostic related(Span span, String text, Datum... more) {
    return with(d -> d.related = plus(related, new Label(span, Datum.fill(text, more)))).data(more);
  }

  /** The same with further places of the same kind; of many the first few, and how many more. */
  public Diagnostic alsoAt(List<Label> places) {
    List<Label> told = places.subList(0, Math.min(places.size(), FURTHER_PLACES));
    int more = places.size() - told.size();
    Diagnostic with =
        with(d -> d.related = Stream.concat(related.stream(), told.stream()).toList());
    return more == 0 ? with : with.fact("further places", Integer.toString(more));
  }

  private Diagnostic data(Datum... more) {
    List<Datum> all = new ArrayList<>(data);
    Stream.of(more).filter(d -> !all.contains(d)).forEach(all::add);
    return with(d -> d.data = all);
  }

  /** The same with one more named value for people. */
  public Diagnostic fact(String what, String value) {
    return with(d -> d.facts = plus(facts, new Fact(what, value)));
  }

  /** The same with words for programs. */
  public Diagnostic words(String what, List<String> values) {
    return with(d -> d.data = plus(data, new Datum.Texts(what, values)));
  }

  /** The same with one word for programs. */
  public Diagnostic word(String what, String value) {
    return words(what, List.of(value));
  }

  /**
   * The same with a number for programs.
   *
   * @param unit as for {@link Datum.Number}
   */
  public Diagnostic number(String what, long value, String unit) {
    return with(d -> d.data = plus(data, new Datum.Number(what, BigDecimal.valueOf(value), unit)));
  }

  /**
   * The same with a measure for programs.
   *
   * @param decimals how many are true
   * @param unit as for {@link Datum.Number}
   */
  public Diagnostic measure(String what, double value, int decimals, String unit) {
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
    return with(d -> d.data = plus(data, new Datum.Number(what, rounded, unit)));
  }

  /** The same with whole numbers for programs. */
  public Diagnostic numbers(String what, List<Integer> values) {
    return with(d -> d.data = plus(data, new Datum.Numbers(what, values)));
  }

  /**
   * The same with the reason why it matters.
   *
   * @param published what says so, as it is cited; shown after the reason where that does not name
   *     it
   */
  public Diagnostic because(String reason, String... published) {
    return with(
        d -> {
          d.why = reason;
          d.sources = List.of(published);
        });
  }

  /** The same with what to do, and the data that the advice is filled with. */
  public Diagnostic help(String advice, Datum... more) {
    return with(d -> d.help = Datum.fill(advice, more)).data(more);
  }

  /** The same with several things to do, any of which mends it. */
  public Diagnostic ways(List<String> orders) {
    return help(String.join("; or ", orders)).words("ways", orders);
  }

  /** The same with one more change that would mend it. */
  public Diagnostic fix(String title, Span span, String replacement, boolean safe) {
    return fix(new Fix(title, span, replacement, safe));
  }

  /** The same with one more change, at any number of places. */
  public Diagnostic fix(Fix fix) {
    return with(d -> d.fixes = plus(fixes, fix));
  }

  /** The same, about something that an acceptance can name. */
  public Diagnostic about(List<String> names) {
    return with(d -> d.about = names);
  }

  /** The same at other places, without the changes that would mend it. */
  public Diagnostic at(Label first, List<Label> others) {
    return with(
        d -> {
          d.primary = first;
          d.related = others;
          d.fixes = List.of();
        });
  }

  /** As a note, with the reason why it may stay. */
  public Diagnostic accepted(Acceptance acceptance) {
    return with(d -> {
          d.severity = Severity.NOTE;
          d.help = "nothing, as long as the reason holds";
          d.fixes = List.of();
        })
        .related(acceptance.span(), "accepted here")
        .fact("accepted", acceptance.reason())
        .word("accepted", acceptance.reason());
  }

  private Diagnostic with(Consumer<Draft> change) {
    Draft draft = new Draft(this);
    change.accept(draft);
    return new Diagnostic(
        name,
        tier,
        draft.severity,
        message,
        draft.primary,
        draft.related,
        draft.facts,
        draft.data,
        draft.why,
        draft.sources,
        draft.help,
        draft.fixes,
        draft.about);
  }

  private static <T> List<T> plus(List<T> list, T last) {
    List<T> more = new ArrayList<>(list);
    more.add(last);
    return more;
  }

  /** What can be told more of a diagnostic. */
  private static final class Draft {
    private Severity severity;
    private Label primary;
    private List<Label> related;
    private List<Fact> facts;
    private List<Datum> data;
    private String why;
    private List<String> sources;
    private String help;
    private List<Fix> fixes;
    private List<String> about;

    Draft(Diagnostic of) {
      severity = of.severity;
      primary = of.primary;
      related = of.related;
      facts = of.facts;
      data = of.data;
      why = of.why;
      sources = of.sources;
      help = of.help;
      fixes = of.fixes;
      about = of.about;
    }
  }
}
