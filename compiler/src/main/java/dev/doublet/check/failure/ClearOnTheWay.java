package dev.doublet.check.failure;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.FaultWords;
import dev.doublet.facts.Patience;
import dev.doublet.failure.Site;
import dev.doublet.failure.Site.AspectPicture;
import dev.doublet.failure.Verdict;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A change of aspect in which arms, on their way, show an aspect that permits more than the one
 * before and more than the one after. Arms of a signal start together and each takes its own time,
 * so while they travel each may be at any position between; lamps change at once.
 */
public final class ClearOnTheWay implements Check.OfBook {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Rulebook book = facts.book();
    List<HeadType> arms = book.heads().stream().filter(HeadType::isArm).toList();
    Map<String, Change> first = new LinkedHashMap<>();
    Map<String, Integer> count = new LinkedHashMap<>();
    for (Site site : arms.isEmpty() ? List.<Site>of() : Site.of(book)) {
      Map<Permission, List<AspectPicture>> more = new HashMap<>();
      for (AspectPicture from : site.shown()) {
        Patience.ask();
        List<AspectPicture> worse = permittingMore(site, from, more);
        for (AspectPicture to : worse.isEmpty() ? worse : site.shown()) {
          for (Change change : worse(book, site, from, to, worse, arms)) {
            String key = FaultWords.site(site) + '\n' + change.seen().name();
            first.putIfAbsent(key, change);
            count.merge(key, 1, Integer::sum);
          }
        }
      }
    }
    List<Diagnostic> found = new ArrayList<>();
    first.forEach((key, change) -> found.add(report(change, count.get(key) - 1)));
    return found;
  }

  /**
   * One change.
   *
   * @param seen what is read on the way
   * @param picture what then shows
   */
  private record Change(
      Site site, AspectPicture from, AspectPicture to, Aspect seen, List<Display> picture) {}

  /** What each head may show while a picture changes to another; nothing when no arm moves. */
  private static List<Set<Display>> way(List<HeadType> arms, List<Display> from, List<Display> to) {
    List<Set<Display>> way = new ArrayList<>();
    boolean moves = false;
    for (int head = 0; head < to.size(); head++) {
      Set<Display> passed = new LinkedHashSet<>();
      for (HeadType arm : arms) {
        int start = arm.positions().indexOf(from.get(head).look());
        int end = arm.positions().indexOf(to.get(head).look());
        for (int at = Math.min(start, end); start >= 0 && at <= Math.max(start, end); at++) {
          if (end >= 0 && start != end) {
            passed.add(Display.steady(arm.positions().get(at)));
          }
        }
      }
      moves |= !passed.isEmpty();
      passed.add(to.get(head));
      way.add(passed);
    }
    return moves ? way : List.of();
  }

  /** What is shown there that permits more than one picture; many permit the same. */
  private static List<AspectPicture> permittingMore(
      Site site, AspectPicture than, Map<Permission, List<AspectPicture>> known) {
    return known.computeIfAbsent(
        than.aspect().permission(),
        permission -> site.shown().stream().filter(one -> permitsMore(one, than)).toList());
  }

  private static List<Change> worse(
      Rulebook book,
      Site site,
      AspectPicture from,
      AspectPicture to,
      List<AspectPicture> others,
      List<HeadType> arms) {
    List<Set<Display>> way = way(arms, from.picture(), to.picture());
    List<Change> worse = new ArrayList<>();
    for (AspectPicture other : way.isEmpty() ? List.<AspectPicture>of() : others) {
      if (permitsMore(other, to)) {
        passed(other.by().pattern(), way)
            .filter(
                picture ->
                    Reading.of(book, site.crew().form(), site.plates(), picture).stream()
                        .anyMatch(r -> r.aspect().equals(other.aspect())))
            .ifPresent(p -> worse.add(new Change(site, from, to, other.aspect(), p)));
      }
    }
    return worse;
  }

  private static boolean permitsMore(AspectPicture one, AspectPicture than) {
    return Verdict.of(one.aspect().permission(), than.aspect().permission()) == Verdict.MORE;
  }

  /** A picture of a way that a pattern covers. */
  private static Optional<List<Display>> passed(Pattern pattern, List<Set<Display>> way) {
    List<Display> picture = new ArrayList<>();
    for (int head = 0; head < way.size(); head++) {
      int at = head;
      way.get(head).stream()
          .filter(d -> pattern.choices().get(at).accepts(d))
          .findFirst()
          .ifPresent(picture::add);
    }
    return picture.size() == way.size() ? Optional.of(picture) : Optional.empty();
  }

  private Diagnostic report(Change change, int more) {
    String from = change.from().aspect().name();
    String to = change.to().aspect().name();
    String seen = change.seen().name();
    Diagnostic said =
        finding(
                Severity.WARNING,
                change.from().span(),
                Words.say(
                    "on %s, \"%s\" shows while the arms move from \"%s\" to \"%s\"",
                    FaultWords.site(change.site()), seen, from, to))
            .about(List.of(change.site().crew().form().name(), seen))
            .label("shows \"" + from + "\"")
            .related(change.to().span(), "shows \"" + to + "\"")
            .word("form", change.site().crew().form().name())
            .words("aspects", List.of(from, to, seen))
            .fact("on the way", Display.over(change.picture()));
    if (more > 0) {
      said = said.fact("likewise", Words.count(more, "other change"));
    }
    return said.because(
            "it permits more than the aspect before and more than the one after, and arms need a second or two")
        .help(
            Words.say(
                "let the arms stand otherwise; or put the signal to its most restrictive aspect between the two, and say so: accept clear-on-the-way of \"%s\" on %s because \"…\"",
                seen, change.site().crew().form().name()));
  }
}
