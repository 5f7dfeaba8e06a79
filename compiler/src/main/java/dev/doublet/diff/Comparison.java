package dev.doublet.diff;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.report.Findings;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

/** Compares files then and now. */
public final class Comparison {
  private final List<Event> events = new ArrayList<>();

  /** Rulebooks whose changes are told, by their files. */
  private final Set<String> told = new HashSet<>();

  private Comparison() {}

  /**
   * What changed between two versions of some files, each paired with itself.
   *
   * @param unseen what is another and cannot be compared
   */
  public static Changes of(List<Pair> pairs, List<UnseenRepository> unseen) {
    Comparison comparison = new Comparison();
    unseen.forEach(u -> comparison.events.add(u.event()));
    List<Pair> paired = comparison.renamed(pairs);
    // Rulebooks first: their changes are told with them, and not with the layouts on them.
    paired.stream().filter(p -> !isLayout(p)).forEach(comparison::compare);
    paired.stream().filter(Comparison::isLayout).forEach(comparison::compare);
    List<Event> all = new ArrayList<>(new LinkedHashSet<>(comparison.events));
    return new Changes(paired.stream().map(Pair::path).toList(), all);
  }

  private static boolean isLayout(Pair pair) {
    return pair.before().or(pair::after).orElseThrow().isLayout();
  }

  /** A file that is gone and one that is new are one with another name, where only one fits. */
  private List<Pair> renamed(List<Pair> pairs) {
    List<Pair> gone = pairs.stream().filter(p -> p.after().isEmpty()).toList();
    List<Pair> added = pairs.stream().filter(p -> p.before().isEmpty()).toList();
    List<Pair> paired = new ArrayList<>(pairs);
    for (Pair old : gone) {
      List<Pair> fits = added.stream().filter(p -> fits(old, p)).toList();
      boolean only =
          fits.size() == 1 && gone.stream().filter(o -> fits(o, fits.get(0))).count() == 1;
      if (only) {
        paired.remove(old);
        paired.remove(fits.get(0));
        paired.add(new Pair(old.beforeOrNull(), fits.get(0).afterOrNull()));
        events.add(
            Event.of(
                    Sort.FILE_RENAMED,
                    Consequence.TEXT,
                    Subject.of("file", fits.get(0).path()),
                    "has another name")
                .from(old.path(), fits.get(0).path())
                .in(fits.get(0).path()));
      }
    }
    return paired;
  }

  private static boolean fits(Pair gone, Pair added) {
    Version was = gone.beforeOrNull();
    Version is = added.afterOrNull();
    if (was.isLayout() != is.isLayout()) {
      return false;
    }
    boolean sameText = Objects.equals(was.texts().get(was.path()), is.texts().get(is.path()));
    return sameText || was.whole() && is.whole() && title(was).equals(title(is));
  }

  private static String title(Version version) {
    return version.isLayout()
        ? version.layoutOrNull().layout().title()
        : version.bookOrNull().title();
  }

  private void compare(Pair pair) {
    List<Version> broken = new ArrayList<>();
    pair.before().filter(v -> !v.whole()).ifPresent(broken::add);
    pair.after().filter(v -> !v.whole()).ifPresent(broken::add);
    if (broken.size() == 2 && isSame(pair.beforeOrNull(), pair.afterOrNull())) {
      return;
    }
    if (!broken.isEmpty()) {
      events.add(unread(pair, broken));
    } else if (pair.before().isEmpty() || pair.after().isEmpty()) {
      events.add(alone(pair));
    } else {
      versions(pair.beforeOrNull(), pair.afterOrNull());
    }
  }

  /** Equal texts mean the same, if all of them could be fetched. */
  private static boolean isSame(Version was, Version is) {
    return was.texts().equals(is.texts())
        && errors(is).stream().noneMatch(e -> e.name().equals("missing-file"));
  }

  private static Event unread(Pair pair, List<Version> broken) {
    boolean old = broken.get(0) == pair.beforeOrNull();
    String which =
        broken.size() == 2 ? "neither version" : old ? "the earlier version" : "the later version";
    List<Diagnostic> errors = broken.stream().flatMap(v -> errors(v).stream()).toList();
    return Event.of(
            Sort.NOT_COMPARED,
            Consequence.MORE,
            Subject.of("file", pair.path()),
            "was not compared: "
                + which
                + (broken.size() == 2 ? " can" : " cannot")
                + " be read whole")
        .at(which)
        .because(
            Words.count(errors.size(), "error")
                + errors.stream().findFirst().map(e -> ", the first: " + e.message()).orElse(""))
        .in(pair.path());
  }

  private static List<Diagnostic> errors(Version version) {
    return version.findings().all().stream()
        .map(Findings.Finding::said)
        .filter(d -> d.severity() == Severity.ERROR)
        .toList();
  }

  private static Event alone(Pair pair) {
    boolean fresh = pair.before().isEmpty();
    Version one = fresh ? pair.afterOrNull() : pair.beforeOrNull();
    String title = title(one);
    return Event.of(
            fresh ? Sort.FILE_ADDED : Sort.FILE_GONE,
            one.isLayout() ? Consequence.WORK : Consequence.SEEN,
            Subject.of("file", one.path()),
            fresh ? "is new" : "is gone")
        .from(fresh ? "" : title, fresh ? title : "")
        .in(one.path());
  }

  private void versions(Version was, Version is) {
    List<Event> found = new ArrayList<>();
    BookChanges book = BookChanges.of(was.bookOrNull(), is.bookOrNull());
    if (told.add(is.bookPath())) {
      book.events().forEach(e -> events.add(e.in(is.bookPath())));
    }
    Map<String, String> names = book.aspects().names();
    if (is.isLayout()) {
      SignalPairs signals = SignalPairs.of(was.layoutOrNull().layout(), is.layoutOrNull().layout());
      names.putAll(signals.names());
      found.addAll(LayoutChanges.of(was.layoutOrNull(), is.layoutOrNull(), book, signals));
    }
    found.addAll(FindingChanges.of(was, is, names));
    // A finding may stand in a file that others are told of too.
    found.forEach(e -> events.add(e.file().isEmpty() ? e.in(is.path()) : e));
    boolean silent = found.isEmpty() && (is.isLayout() || book.events().isEmpty());
    if (silent && !was.texts().get(was.path()).equals(is.texts().get(is.path()))) {
      events.add(
          Event.of(
                  Sort.TEXT_CHANGED,
                  Consequence.TEXT,
                  Subject.of("file", is.path()),
                  "says the same in other words")
              .in(is.path()));
    }
  }
}
