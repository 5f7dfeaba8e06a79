package dev.doublet.check.sequence;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Sequence;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A rulebook that cannot bring a train from its fastest aspect to a stand. */
public final class SequenceGap implements Check.OfBook {
  private static final int MOST_PLACES = 5;

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Optional<Aspect> stop = facts.book().mostRestrictive();
    if (stop.isEmpty()) {
      return List.of();
    }
    Sequence sequence = Sequence.of(facts.book());
    Map<Permission, List<Aspect>> byPermission = new LinkedHashMap<>();
    sequence.fastest().stream()
        .filter(a -> !a.equals(stop.get()))
        .forEach(a -> byPermission.computeIfAbsent(a.permission(), p -> new ArrayList<>()).add(a));
    Map<List<Aspect>, List<Aspect>> stranded = new LinkedHashMap<>();
    for (List<Aspect> alike : byPermission.values()) {
      List<Aspect> reached = sequence.reached(alike.get(0));
      if (!reached.contains(stop.get())) {
        stranded.computeIfAbsent(reached, r -> new ArrayList<>()).addAll(alike);
      }
    }
    List<Diagnostic> found = new ArrayList<>();
    stranded.values().forEach(from -> from.sort(Comparator.comparing(Aspect::span)));
    stranded.forEach((reached, from) -> found.add(report(reached, from, stop.get())));
    return found;
  }

  private Diagnostic report(List<Aspect> reached, List<Aspect> from, Aspect stop) {
    boolean one = from.size() == 1;
    String how =
        reached.isEmpty()
            ? "no aspect may follow " + (one ? "it" : "them")
            : (one ? "it leads" : "they lead") + " only to " + Words.quoted(reached, Aspect::name);
    List<String> about = new ArrayList<>(from.stream().map(Aspect::name).toList());
    about.add(stop.name());
    Diagnostic finding =
        finding(
                Severity.WARNING,
                from.get(0).permissionSpan(),
                Words.say(
                    "no sequence of aspects brings a train from %s to \"%s\"",
                    Words.alternatives(from, Aspect::name), stop.name()))
            .about(about)
            .label(how)
            .words("aspects", from.stream().map(Aspect::name).toList())
            .word("stop", stop.name())
            .words("reached", reached.stream().map(Aspect::name).toList());
    for (Aspect other : from.subList(1, Math.min(MOST_PLACES, from.size()))) {
      finding = finding.related(other.permissionSpan(), "nor from here");
    }
    return finding
        .related(stop.span(), "never announced on the way")
        .because("a crew that obeys every aspect would still meet the stop signal without warning")
        .help(
            "add an aspect that may stand after one of these and says \"then stop\", or say in \"allows\" what the next signal asks");
  }
}
