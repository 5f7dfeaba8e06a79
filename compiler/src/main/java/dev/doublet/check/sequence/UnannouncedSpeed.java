package dev.doublet.check.sequence;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Movement;
import dev.doublet.rulebook.Pace;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Speed;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;

/** A lower speed that no aspect before it announces, in a book that announces others. */
public final class UnannouncedSpeed implements Check.OfBook {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Aspect> aspects = facts.book().aspects().stream().flatMap(a -> a.each().stream()).toList();
    Set<Permission> permissions = new LinkedHashSet<>();
    Map<Pace, List<Aspect>> permitting = new LinkedHashMap<>();
    for (Aspect aspect : aspects) {
      permissions.add(aspect.permission());
      if (aspect.permission().here() instanceof Movement.Proceed proceed) {
        permitting.computeIfAbsent(proceed.entry(), p -> new ArrayList<>()).add(aspect);
      }
    }
    permitting.keySet().removeIf(p -> !isReduced(p, permissions));
    Map<Pace, List<Aspect>> unwarned = new LinkedHashMap<>(permitting);
    unwarned.keySet().removeIf(p -> isAnnounced(p, permissions));
    if (unwarned.size() == permitting.size()) {
      return List.of();
    }
    Map<Pace, Set<Aspect>> told = new LinkedHashMap<>();
    unwarned.forEach(
        (pace, its) -> {
          for (Aspect aspect : its) {
            // What is announced for no number is missing as a whole.
            Aspect whole = facts.book().aspect(aspect.family()).orElse(aspect);
            boolean all =
                whole.each().stream()
                    .allMatch(a -> unwarned.containsKey(a.permission().here().entry()));
            Aspect by = all ? whole : aspect;
            Pace of = all ? whole.permission().here().entry() : pace;
            told.computeIfAbsent(of, p -> new LinkedHashSet<>()).add(by);
          }
        });
    List<Diagnostic> found = new ArrayList<>();
    told.forEach((pace, its) -> found.add(report(pace, List.copyOf(its))));
    return found;
  }

  /**
   * True for a speed with a figure that some aspect lets a train exceed; on sight needs no warning.
   * A signal that says nothing of the speed there, as a distant, lets no train go faster.
   */
  private static boolean isReduced(Pace pace, Set<Permission> permissions) {
    return pace.rank() == Speed.Rank.FIGURE
        && !pace.onSight()
        && permissions.stream()
            .map(Permission::here)
            .anyMatch(m -> !(m instanceof Movement.Unsaid) && m.entry().exceeds(pace));
  }

  private static boolean isAnnounced(Pace pace, Set<Permission> permissions) {
    return permissions.stream()
        .filter(p -> p.here().entry().exceeds(pace))
        .anyMatch(p -> announced(p).anyMatch(m -> m.entry().equals(pace)));
  }

  private static Stream<Movement> announced(Permission permission) {
    return Stream.of(permission.announced(), permission.second())
        .filter(m -> m instanceof Movement.Proceed || m instanceof Movement.Reducing);
  }

  private Diagnostic report(Pace pace, List<Aspect> aspects) {
    Aspect first = aspects.get(0);
    Diagnostic said =
        finding(
                Severity.WARNING,
                first.permissionSpan(),
                Words.say("no aspect announces the speed \"%s\"", pace.name()))
            .about(aspects.stream().map(Aspect::name).toList())
            .label("\"" + first.name() + "\" permits it")
            .word("speed", pace.name())
            .words("aspects", aspects.stream().map(Aspect::name).toList());
    for (Aspect other : aspects.subList(1, Math.min(4, aspects.size()))) {
      said = said.related(other.permissionSpan(), "\"" + other.name() + "\" too");
    }
    return said.because(
            "other lower speeds are announced at the signal before; a train meets this one unwarned, or only where it was told to be ready to stop (common practice)")
        .help("add an aspect that says \"{write}\"", Datum.of("write", "then " + pace.name()));
  }
}
