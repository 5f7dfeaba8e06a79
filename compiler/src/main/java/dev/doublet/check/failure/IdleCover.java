package dev.doublet.check.failure;

import dev.doublet.check.Check;
import dev.doublet.colour.LedFamily;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.failure.AnyLayout;
import dev.doublet.failure.Case;
import dev.doublet.failure.Condition;
import dev.doublet.failure.Dies;
import dev.doublet.failure.Failure;
import dev.doublet.failure.Pairs;
import dev.doublet.failure.Site;
import dev.doublet.failure.Site.AspectPicture;
import dev.doublet.failure.SiteFailures;
import dev.doublet.failure.Trial;
import dev.doublet.failure.TrialResult;
import dev.doublet.layout.Drives;
import dev.doublet.rulebook.Cover;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiFunction;

/** A cover for which no hazard is left on any layout, or that another one already has. */
public final class IdleCover implements Check.OfBook {
  private static final Set<Fault> OF_DIES = Set.of(Fault.DIE_OUT, Fault.DIE_STUCK);

  @Override
  public boolean takesLong() {
    return true;
  }

  /**
   * One fault that a cover is for, on one form unless the cover is for all.
   *
   * @param formOrNull null when the cover names no form
   */
  private record Use(Cover cover, Fault fault, Form formOrNull) {
    private static Use of(Cover cover, Fault fault, Form form) {
      return new Use(cover, fault, cover.forms().isEmpty() ? null : form);
    }

    private boolean isOn(Form form) {
      return formOrNull == null || formOrNull.equals(form);
    }

    private String words() {
      return fault.words() + (formOrNull == null ? "" : " on " + formOrNull.name());
    }
  }

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Rulebook book = facts.book();
    Set<Use> all = uses(book);
    Set<Use> idle = new LinkedHashSet<>(all);
    for (Form form : book.forms()) {
      withoutNeeded(idle, book, form, facts.asked().pairs());
    }
    List<Diagnostic> found = new ArrayList<>();
    byCover(idle).forEach((cover, words) -> found.add(idle(cover, words)));
    if (facts.asked().notes() && !facts.asked().pairs()) {
      Set<Use> ofDies = new LinkedHashSet<>(all);
      ofDies.removeIf(use -> !OF_DIES.contains(use.fault()) || idle.contains(use));
      withoutNeededOnKnownLeds(ofDies, book);
      byCover(ofDies).forEach((cover, words) -> found.add(idleOnKnownLeds(cover, words)));
    }
    return found;
  }

  private static Set<Use> uses(Rulebook book) {
    Set<Use> uses = new LinkedHashSet<>();
    for (Cover cover : book.failures().covers()) {
      List<Form> forms = cover.forms().isEmpty() ? book.forms() : cover.forms();
      for (Fault fault : cover.faults().stream().sorted().toList()) {
        forms.forEach(form -> uses.add(Use.of(cover, fault, form)));
      }
    }
    return uses;
  }

  /** Takes away what covers something on some layout, and what cannot be judged. */
  private static void withoutNeeded(Set<Use> idle, Rulebook book, Form form, boolean pairs) {
    if (idle.stream().noneMatch(use -> use.isOn(form))) {
      return;
    }
    if (AnyLayout.isTooLarge(book, form)) {
      idle.removeIf(use -> use.isOn(form));
      return;
    }
    withoutNeeded(idle, book, form, AnyLayout::faults);
    if (pairs && idle.stream().anyMatch(use -> use.isOn(form))) {
      List<Site> sites =
          AnyLayout.plateSets(book, form).stream()
              .flatMap(plates -> Site.on(book, form, plates).stream())
              .flatMap(site -> site.underEachRule().stream())
              .toList();
      for (TrialResult tried : Pairs.on(sites, AnyLayout::failures, Pairs.MOST_STEPS)) {
        idle.removeIf(use -> tried.untried() > 0 && use.isOn(form));
        tried.hazards().forEach(one -> idle.removeAll(covering(book, form, one.trial().faults())));
      }
    }
  }

  private static void withoutNeeded(
      Set<Use> idle,
      Rulebook book,
      Form form,
      BiFunction<Site, List<Display>, List<Failure>> faults) {
    for (List<String> plates : AnyLayout.plateSets(book, form)) {
      if (idle.stream().noneMatch(use -> use.isOn(form))) {
        return;
      }
      if (Site.isCrowded(book, form, plates)) {
        idle.removeIf(use -> use.isOn(form));
        return;
      }
      Site.on(book, form, plates).stream()
          .flatMap(site -> site.underEachRule().stream())
          .forEach(site -> withoutNeeded(idle, site, faults));
    }
  }

  private static void withoutNeeded(
      Set<Use> idle, Site site, BiFunction<Site, List<Display>, List<Failure>> faults) {
    for (AspectPicture shown : site.shown()) {
      Condition whole = site.whole(shown.picture());
      for (Failure failure : faults.apply(site, shown.picture())) {
        Set<Use> uses = covering(site.crew().book(), site.crew().form(), List.of(failure.kind()));
        uses.retainAll(idle);
        if (!uses.isEmpty() && !Case.of(shown, Trial.of(whole, failure), site.crew()).isSafe()) {
          idle.removeAll(uses);
        }
      }
      if (idle.stream().noneMatch(use -> use.isOn(site.crew().form()))) {
        return;
      }
    }
  }

  private static void withoutNeededOnKnownLeds(Set<Use> idle, Rulebook book) {
    book.forms().stream()
        .filter(form -> AnyLayout.isTooLarge(book, form))
        .forEach(form -> idle.removeIf(use -> use.isOn(form)));
    for (LedFamily family : LedFamily.published()) {
      if (idle.isEmpty()) {
        return;
      }
      List<Dies> dies =
          List.of(
              Dies.of(family.name(), family, Drives.of(family, book, Set.of(), false), book, 1));
      for (Form form : book.forms()) {
        withoutNeeded(idle, book, form, (site, picture) -> ofDies(site, picture, dies));
      }
    }
  }

  private static List<Failure> ofDies(Site site, List<Display> picture, List<Dies> dies) {
    List<Failure> failures = new ArrayList<>(SiteFailures.diesOut(site, picture, dies));
    failures.addAll(SiteFailures.diesStuck(site, picture, dies));
    return failures;
  }

  /** Of each of some faults, the first cover there is. */
  private static Set<Use> covering(Rulebook book, Form form, List<Fault> faults) {
    Set<Use> uses = new LinkedHashSet<>();
    for (Fault fault : faults) {
      book.failures().cover(fault, form).ifPresent(cover -> uses.add(Use.of(cover, fault, form)));
    }
    return uses;
  }

  private static Map<Cover, String> byCover(Set<Use> uses) {
    Map<Cover, List<String>> words = new LinkedHashMap<>();
    for (Use use : uses) {
      words.computeIfAbsent(use.cover(), c -> new ArrayList<>()).add(use.words());
    }
    Map<Cover, String> lists = new LinkedHashMap<>();
    words.forEach((cover, list) -> lists.put(cover, Words.list(list)));
    return lists;
  }

  private Diagnostic idle(Cover cover, String idle) {
    return finding(
            Severity.WARNING,
            cover.span(),
            Words.say("nothing is left for this to cover: %s", idle))
        .word("cover", cover.span().text())
        .word("idle", idle)
        .because("a cover that outlives its hazard would hide the next one")
        .help("take away what is idle, or the whole line");
  }

  private Diagnostic idleOnKnownLeds(Cover cover, String idle) {
    return finding(
            Severity.NOTE,
            cover.span(),
            Words.say("nothing is left for this to cover on LEDs of the known families: %s", idle))
        .word("cover", cover.span().text())
        .word("idle", idle)
        .because("only an LED that a layout drives or measures in its own way could need it")
        .help("nothing, if layouts have such LEDs; otherwise take away what is idle");
  }
}
