package dev.doublet.check.ambiguity;

import dev.doublet.cells.Widest;
import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Speed;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/** Aspects that permit exactly the same on the same form. */
public final class TwoNamesOneMeaning implements Check.OfBook {
  private static final int MOST_PLACES = 5;

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Map<Permission, List<Aspect>> byPermission = new LinkedHashMap<>();
    facts.book().aspects().stream()
        .flatMap(a -> a.each().stream())
        .sorted(Comparator.comparing(Aspect::span))
        .forEach(a -> byPermission.computeIfAbsent(a.permission(), p -> new ArrayList<>()).add(a));
    List<Diagnostic> found = new ArrayList<>();
    Set<List<String>> told = new HashSet<>();
    for (List<Aspect> same : byPermission.values()) {
      Map<BitSet, List<String>> forms = new LinkedHashMap<>();
      byForm(same).forEach((f, on) -> forms.computeIfAbsent(on, k -> new ArrayList<>()).add(f));
      forms.keySet().removeIf(on -> on.cardinality() < 2);
      for (BitSet on : Widest.of(List.copyOf(forms.keySet()), set -> set)) {
        List<Aspect> these = on.stream().mapToObj(same::get).toList();
        if (isRoutes(these, forms.get(on))) {
          continue;
        }
        // Of aspects that share many numbers, one is told of.
        if (told.add(these.stream().map(Aspect::family).toList())) {
          found.add(report(these, forms.get(on)));
        }
      }
    }
    return found;
  }

  /**
   * True where a route is all that tells aspects apart: one family whose numbers say nothing of the
   * speed, or a speed without rank, which each route may have its own of, and the same picture on
   * each form but for what an indicator shows.
   */
  private static boolean isRoutes(List<Aspect> these, List<String> forms) {
    return these.stream().map(Aspect::family).distinct().count() == 1
        || these.get(0).permission().here().entry().rank() == Speed.Rank.UNRANKED
            && forms.stream()
                .allMatch(f -> these.stream().map(a -> beside(a, f)).distinct().count() == 1);
  }

  /** What an aspect shows on a form beside the heads that are usually dark, with which plates. */
  private static Set<List<?>> beside(Aspect aspect, String form) {
    Set<List<?>> shown = new HashSet<>();
    for (Pattern pattern : aspect.patterns()) {
      if (pattern.form().name().equals(form)) {
        List<Object> row = new ArrayList<>(pattern.plates());
        for (int i = 0; i < pattern.choices().size(); i++) {
          if (!pattern.form().usuallyDark().contains(pattern.form().places().get(i))) {
            row.add(Set.copyOf(pattern.choices().get(i).displays()));
          }
        }
        shown.add(row);
      }
    }
    return shown;
  }

  /** For each form, by name, which of some aspects stand on it. */
  private static SortedMap<String, BitSet> byForm(List<Aspect> aspects) {
    SortedMap<String, BitSet> byForm = new TreeMap<>();
    for (int i = 0; i < aspects.size(); i++) {
      for (Pattern pattern : aspects.get(i).patterns()) {
        byForm.computeIfAbsent(pattern.form().name(), f -> new BitSet()).set(i);
      }
    }
    return byForm;
  }

  private Diagnostic report(List<Aspect> same, List<String> forms) {
    Aspect first = same.get(0);
    List<Aspect> others = same.subList(1, same.size());
    Aspect second = others.get(0);
    String all = others.size() == 1 ? "both" : "all";
    Diagnostic finding =
        finding(
                Severity.WARNING,
                second.permissionSpan(),
                Words.say(
                    "%s %s exactly what \"%s\" does",
                    Words.quoted(others, Aspect::name),
                    others.size() == 1 ? "permits" : "permit",
                    first.name()))
            .about(same.stream().map(Aspect::name).toList())
            .label("\"" + second.name() + "\"")
            .related(first.permissionSpan(), "\"" + first.name() + "\"")
            .words("aspects", same.stream().map(Aspect::name).toList())
            .word("permission", first.permission().words())
            .words("forms", forms)
            .fact(all + " allow", first.permission().words())
            .fact(all + " stand on", Words.plural(forms.size(), "form") + " " + Words.list(forms));
    for (Aspect other : others.subList(1, Math.min(MOST_PLACES, others.size()))) {
      finding = finding.related(other.permissionSpan(), "\"" + other.name() + "\"");
    }
    return finding
        .because("aspects that ask for the same action share one name", "49 CFR 236.23(c)")
        .help(
            others.size() == 1
                ? "give both patterns to one aspect, joined by \"or\", or say how the two differ"
                : "give all patterns to one aspect, joined by \"or\", or say how they differ");
  }
}
