package dev.doublet.check.colour;

import dev.doublet.check.Check;
import dev.doublet.colour.Seeing;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rhythm;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** Rhythms too alike to be told apart. */
public final class RatesTooAlike implements Check.OfBook {
  private static final int MOST_PLACES = 6;

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Set<String> used =
        facts.book().aspects().stream()
            .flatMap(a -> a.patterns().stream())
            .flatMap(p -> p.choices().stream())
            .flatMap(c -> c.displays().stream())
            .map(Display::rhythm)
            .collect(Collectors.toCollection(HashSet::new));
    facts.book().heads().stream()
        .flatMap(head -> head.figures().stream())
        .flatMap(figure -> figure.lit().stream())
        .forEach(lit -> used.add(lit.rhythm()));
    List<Rhythm> rhythms =
        facts.book().rhythms().stream()
            .filter(r -> used.contains(r.name()))
            .sorted(Comparator.comparingInt(Rhythm::perMinute).thenComparing(Rhythm::name))
            .toList();
    List<List<Rhythm>> runs = new ArrayList<>();
    for (int i = 1; i < rhythms.size(); i++) {
      Rhythm slow = rhythms.get(i - 1);
      Rhythm fast = rhythms.get(i);
      if (fast.perMinute() < Seeing.RATE_APART * slow.perMinute()
          && !takeTurns(facts, slow, fast)) {
        List<Rhythm> last = runs.isEmpty() ? List.of() : runs.get(runs.size() - 1);
        if (!last.isEmpty() && last.get(last.size() - 1).equals(slow)) {
          last.add(fast);
        } else {
          runs.add(new ArrayList<>(List.of(slow, fast)));
        }
      }
    }
    return runs.stream().map(this::report).toList();
  }

  /**
   * True for two rhythms of one rate of which one starts dark, unless an aspect becomes another
   * when each stands for the other: a crew sees whether lamps flash together or take turns, but not
   * which of two began.
   */
  private static boolean takeTurns(BookFacts facts, Rhythm one, Rhythm other) {
    return one.perMinute() == other.perMinute()
        && one.startsDark() != other.startsDark()
        && facts.looks().stream().noneMatch(look -> clashWhenSwapped(facts, look, one, other));
  }

  private static boolean clashWhenSwapped(
      BookFacts facts, BookFacts.Look look, Rhythm one, Rhythm other) {
    Map<String, String> swaps = Map.of(one.name(), other.name(), other.name(), one.name());
    return look.shown().stream()
        .filter(each -> flashes(each.pattern(), swaps.keySet()))
        .anyMatch(
            each -> {
              Pattern swapped = swapped(each.pattern(), swaps);
              return look.shown().stream()
                  .filter(known -> !known.aspect().equals(each.aspect()))
                  .anyMatch(known -> known.pattern().meets(swapped));
            });
  }

  private static boolean flashes(Pattern pattern, Set<String> rhythms) {
    return pattern.choices().stream()
        .flatMap(c -> c.displays().stream())
        .anyMatch(d -> rhythms.contains(d.rhythm()));
  }

  private static Pattern swapped(Pattern pattern, Map<String, String> swaps) {
    List<Choice> choices = new ArrayList<>();
    for (Choice choice : pattern.choices()) {
      List<Display> displays =
          choice.displays().stream()
              .map(d -> new Display(d.look(), swaps.getOrDefault(d.rhythm(), d.rhythm())))
              .toList();
      choices.add(new Choice(displays, choice.letter(), choice.span()));
    }
    return new Pattern(pattern.form(), pattern.plates(), choices, pattern.span());
  }

  private Diagnostic report(List<Rhythm> run) {
    Rhythm slowest = run.get(0);
    Rhythm next = run.get(1);
    List<String> names = run.stream().map(Rhythm::name).toList();
    Diagnostic finding =
        finding(
                Severity.WARNING,
                next.span(),
                Words.say(
                    "%s flash at rates too alike to tell apart%s",
                    Words.list(names), run.size() == 2 ? "" : ", each from the next"))
            .about(names)
            .label(rate(next))
            .words("rhythms", names)
            .numbers("per minute", run.stream().map(Rhythm::perMinute).toList())
            .related(slowest.span(), rate(slowest));
    for (Rhythm other : run.subList(2, Math.max(2, Math.min(MOST_PLACES, run.size())))) {
      finding = finding.related(other.span(), rate(other));
    }
    return finding
        .because(
            "a crew has nothing to compare a rate with; at sea 50 to 79 flashes a minute are one class of lights (INT 1 chart symbols), a factor of 1.6",
            "INT 1 chart symbols")
        .help(
            "let {rhythm} flash at least {least} times a minute, or tell the aspects apart by colour",
            Datum.of("rhythm", next.name()),
            Datum.of("least", (int) Math.ceil(Seeing.RATE_APART * slowest.perMinute())));
  }

  private static String rate(Rhythm rhythm) {
    return rhythm.perMinute() + " per minute";
  }
}
