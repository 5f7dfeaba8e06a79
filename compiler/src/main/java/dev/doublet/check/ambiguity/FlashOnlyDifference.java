package dev.doublet.check.ambiguity;

import dev.doublet.cells.Clashes;
import dev.doublet.cells.Row;
import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.BookFacts.AspectPattern;
import dev.doublet.facts.BookFacts.Look;
import dev.doublet.facts.PatternTable;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** Aspects that only a rhythm tells apart. */
public final class FlashOnlyDifference implements Check.OfBook {
  private static final int MOST_TOLD = 1_000;
  private static final int MOST_PLACES = 6;
  private static final BitSet NOT_DONE = new BitSet();

  @Override
  public boolean givesOnlyNotes() {
    return true;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    List<HeadType> heads = facts.book().heads();
    for (Look look : facts.looks()) {
      PatternTable steady =
          PatternTable.of(facts, look, d -> Display.steady(SameLamps.name(heads, d.look())));
      List<BitSet> groups = new ArrayList<>();
      long[] more = new long[1];
      Clashes.eachOnlyIn(
          steady.table(),
          PatternTable.of(facts, look).table(),
          (first, second) -> {
            if (!platesOf(look, first).equals(platesOf(look, second))) {
              return NOT_DONE;
            }
            if (groups.size() == MOST_TOLD) {
              more[0]++;
              return NOT_DONE;
            }
            groups.add(alike(look, steady, first, second));
            return aspects(steady, groups.get(groups.size() - 1));
          });
      for (BitSet group : groups) {
        found.add(report(look, group.stream().mapToObj(look.shown()::get).toList()));
      }
      if (more[0] > 0) {
        found.add(more(look, more[0]));
      }
    }
    return found;
  }

  private static List<String> platesOf(Look look, int row) {
    return look.shown().get(row).pattern().plates();
  }

  private static boolean onlyRhythmsTell(Look look, int first, int second) {
    return platesOf(look, first).equals(platesOf(look, second))
        && !look.shown().get(first).pattern().meets(look.shown().get(second).pattern());
  }

  /** Two patterns, and one of each further aspect of which the same is true there. */
  private static BitSet alike(Look look, PatternTable steady, int first, int second) {
    List<Row> rows = steady.table().rows();
    int[] point = steady.shared(first, second).point();
    BitSet told = new BitSet();
    BitSet group = new BitSet();
    for (int row : rowsFrom(first, second, rows.size())) {
      if (rows.get(row).covers(point)
          && !told.get(rows.get(row).result())
          && group.stream().allMatch(other -> onlyRhythmsTell(look, row, other))) {
        group.set(row);
        told.set(rows.get(row).result());
      }
    }
    return group;
  }

  private static List<Integer> rowsFrom(int first, int second, int count) {
    return IntStream.concat(IntStream.of(first, second), IntStream.range(0, count))
        .distinct()
        .boxed()
        .toList();
  }

  private static BitSet aspects(PatternTable table, BitSet rows) {
    BitSet aspects = new BitSet();
    rows.stream().forEach(row -> aspects.set(table.table().rows().get(row).result()));
    return aspects;
  }

  private Diagnostic report(Look look, List<AspectPattern> group) {
    List<AspectPattern> shown =
        group.stream().sorted(Comparator.comparing(s -> s.pattern().span())).toList();
    List<String> names = shown.stream().map(s -> s.aspect().name()).toList();
    String message =
        names.size() == 2
            ? Words.say("only a rhythm tells \"%s\" from \"%s\"", names.get(0), names.get(1))
            : Words.say("only rhythms tell %s apart", Words.quoted(names, n -> n));
    Diagnostic note =
        finding(Severity.NOTE, shown.get(0).pattern().span(), message + " on " + look.words())
            .about(Words.both(look.forms().stream().map(Form::name).toList(), names))
            .label(shows(shown.get(0)))
            .words("forms", look.forms().stream().map(Form::name).toList())
            .words("aspects", names);
    for (AspectPattern other : shown.subList(1, Math.min(MOST_PLACES, shown.size()))) {
      note = note.related(other.pattern().span(), shows(other));
    }
    return note.because(
            "a flasher that sticks, or a glance between two flashes, shows the other aspect")
        .help("nothing, if the rulebook means it so");
  }

  private Diagnostic more(Look look, long pairs) {
    return finding(
            Severity.NOTE,
            look.shown().get(0).pattern().span(),
            Words.say(
                "only rhythms tell %,d more pairs of patterns apart on %s", pairs, look.words()))
        .about(look.forms().stream().map(Form::name).toList())
        .words("forms", look.forms().stream().map(Form::name).toList())
        .number("more", pairs, "pair")
        .because(Words.say("of one form, at most %,d pictures are told", MOST_TOLD))
        .help("nothing, if the rulebook means it so");
  }

  private static String shows(AspectPattern shown) {
    return "shows \"" + shown.aspect().name() + "\"";
  }
}
