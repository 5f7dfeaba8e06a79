package dev.doublet.check.ambiguity;

import dev.doublet.cells.Overlap;
import dev.doublet.cells.Overlaps;
import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.BookFacts.Look;
import dev.doublet.facts.BookFacts.Shown;
import dev.doublet.facts.PatternTable;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Pattern;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Two aspects that only a rhythm tells apart. */
public final class FlashOnlyDifference implements Check.OfBook {

  @Override
  public boolean givesOnlyNotes() {
    return true;
  }

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Look look : facts.looks()) {
      PatternTable steady = PatternTable.of(facts, look, d -> Display.steady(d.look()));
      Set<Set<String>> told = new HashSet<>();
      for (Overlap overlap : Overlaps.conflicts(steady.table())) {
        Shown first = look.shown().get(overlap.first());
        Shown second = look.shown().get(overlap.second());
        boolean alone =
            first.pattern().plates().equals(second.pattern().plates())
                && !meet(first.pattern(), second.pattern());
        if (alone && told.add(Set.of(first.aspect().name(), second.aspect().name()))) {
          found.add(report(look, first, second));
        }
      }
    }
    return found;
  }

  private static boolean meet(Pattern first, Pattern second) {
    for (int head = 0; head < first.choices().size(); head++) {
      var mine = first.choices().get(head);
      var theirs = second.choices().get(head);
      boolean share =
          mine.isAny() || theirs.isAny() || mine.displays().stream().anyMatch(theirs::accepts);
      if (!share) {
        return false;
      }
    }
    return true;
  }

  private Diagnostic report(Look look, Shown first, Shown second) {
    boolean inOrder = first.pattern().span().compareTo(second.pattern().span()) <= 0;
    Shown early = inOrder ? first : second;
    Shown late = inOrder ? second : first;
    return finding(
            Severity.NOTE,
            early.pattern().span(),
            Words.say(
                "only a rhythm tells \"%s\" from \"%s\" on %s",
                early.aspect().name(), late.aspect().name(), look.words()))
        .label("shows \"" + early.aspect().name() + "\"")
        .related(late.pattern().span(), "shows \"" + late.aspect().name() + "\"")
        .because("a flasher that sticks, or a glance between two flashes, shows the other aspect")
        .help("nothing, if the rulebook means it so");
  }
}
