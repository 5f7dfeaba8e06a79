package dev.doublet.check.colour;

import dev.doublet.cells.Overlaps;
import dev.doublet.check.Check;
import dev.doublet.colour.Seeing;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.BookFacts.Shown;
import dev.doublet.facts.PatternTable;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rhythm;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** Two rhythms too alike to be told apart. */
public final class RatesTooAlike implements Check.OfBook {

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Set<String> used =
        facts.book().aspects().stream()
            .flatMap(a -> a.patterns().stream())
            .flatMap(p -> p.choices().stream())
            .flatMap(c -> c.displays().stream())
            .map(Display::rhythm)
            .collect(Collectors.toSet());
    List<Rhythm> rhythms =
        facts.book().rhythms().stream()
            .filter(r -> used.contains(r.name()))
            .sorted(Comparator.comparingInt(Rhythm::perMinute).thenComparing(Rhythm::name))
            .toList();
    List<Diagnostic> found = new ArrayList<>();
    for (int i = 1; i < rhythms.size(); i++) {
      Rhythm slow = rhythms.get(i - 1);
      Rhythm fast = rhythms.get(i);
      if (fast.perMinute() < Seeing.RATE_APART * slow.perMinute()
          && !takeTurns(facts, slow, fast)) {
        found.add(report(slow, fast));
      }
    }
    return found;
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
    List<Shown> shown = new ArrayList<>(look.shown());
    for (Shown each : look.shown()) {
      Pattern swapped = swapped(each.pattern(), swaps);
      if (!swapped.equals(each.pattern())) {
        shown.add(new Shown(each.aspect(), swapped));
      }
    }
    int asWritten = look.shown().size();
    PatternTable table = PatternTable.of(facts, new BookFacts.Look(look.forms(), shown));
    boolean[] clash = new boolean[1];
    Overlaps.eachConflict(
        table.table(),
        o -> {
          clash[0] = (o.first() < asWritten) != (o.second() < asWritten);
          return !clash[0];
        });
    return clash[0];
  }

  private static Pattern swapped(Pattern pattern, Map<String, String> swaps) {
    List<Choice> choices = new ArrayList<>();
    for (Choice choice : pattern.choices()) {
      List<Display> displays =
          choice.displays().stream()
              .map(d -> new Display(d.look(), swaps.getOrDefault(d.rhythm(), d.rhythm())))
              .toList();
      choices.add(new Choice(displays, choice.span()));
    }
    return new Pattern(pattern.form(), pattern.plates(), choices, pattern.span());
  }

  private Diagnostic report(Rhythm slow, Rhythm fast) {
    return finding(
            Severity.WARNING,
            fast.span(),
            Words.say("%s and %s flash at rates too alike to tell apart", slow.name(), fast.name()))
        .about(List.of(slow.name(), fast.name()))
        .label(fast.perMinute() + " per minute")
        .related(slow.span(), slow.perMinute() + " per minute")
        .because(
            "a crew has nothing to compare a rate with; at sea 50 to 79 flashes a minute are one class of lights (INT 1 chart symbols), a factor of 1.6")
        .help(
            Words.say(
                "let %s flash at least %d times a minute, or tell the aspects apart by colour",
                fast.name(), (int) Math.ceil(Seeing.RATE_APART * slow.perMinute())));
  }
}
