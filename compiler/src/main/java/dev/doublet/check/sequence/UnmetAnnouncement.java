package dev.doublet.check.sequence;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Movement;
import dev.doublet.rulebook.Permission.Place;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** An aspect that announces what no aspect permits. */
public final class UnmetAnnouncement implements Check.OfBook {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  /**
   * What is announced.
   *
   * @param movement what
   * @param place at which signal
   */
  private record Announced(Movement movement, Place place) {}

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Set<Movement> permitted =
        facts.book().aspects().stream()
            .flatMap(a -> a.each().stream())
            .map(a -> a.permission().here())
            .collect(Collectors.toSet());
    Map<Announced, List<Aspect>> unmet = new LinkedHashMap<>();
    for (Aspect aspect : facts.book().aspects()) {
      add(unmet, aspect, Place.NEXT, permitted);
      add(unmet, aspect, Place.SECOND, permitted);
    }
    List<Diagnostic> found = new ArrayList<>();
    unmet.forEach((what, its) -> found.add(report(what, its)));
    return found;
  }

  private static void add(
      Map<Announced, List<Aspect>> unmet, Aspect family, Place place, Set<Movement> permitted) {
    List<Aspect> all = family.each();
    List<Aspect> alone =
        all.stream()
            .filter(by -> permitted.stream().noneMatch(met -> isMet(said(by, place), met)))
            .toList();
    // What is met for no number is missing as a whole.
    for (Aspect by : alone.size() == all.size() ? List.of(family) : alone) {
      unmet.computeIfAbsent(new Announced(said(by, place), place), w -> new ArrayList<>()).add(by);
    }
  }

  private static Movement said(Aspect by, Place place) {
    return place == Place.NEXT ? by.permission().next() : by.permission().second();
  }

  private static boolean isMet(Movement told, Movement met) {
    // That nothing stops a train is told once, of the book.
    return told instanceof Movement.Unsaid
        || told instanceof Movement.Stop
        || told instanceof Movement.Unread
        || met instanceof Movement.Unread
        || (told instanceof Movement.NotStop
            ? !(met instanceof Movement.Stop || met instanceof Movement.StopThen)
            : told.entry().equals(met.entry()));
  }

  private Diagnostic report(Announced what, List<Aspect> aspects) {
    Aspect first = aspects.get(0);
    String words = what.movement().words();
    List<Label> others =
        aspects.stream()
            .skip(1)
            .map(other -> new Label(other.permissionSpan(), "\"" + other.name() + "\" too"))
            .toList();
    return finding(
            Severity.WARNING,
            first.permissionSpan(),
            Words.say("no aspect permits what \"%s\" announces: %s", first.name(), words))
        .about(aspects.stream().map(Aspect::name).toList())
        .label("announced " + what.place().words())
        .word("permission", words)
        .words("aspects", aspects.stream().map(Aspect::name).toList())
        .alsoAt(others)
        .because(
            "a crew is told of a signal that never shows it, so one of the two is missing or misspelt")
        .help(Words.say("add an aspect that allows %s, or announce what is permitted", words));
  }
}
