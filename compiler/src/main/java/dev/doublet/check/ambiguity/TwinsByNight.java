package dev.doublet.check.ambiguity;

import dev.doublet.cells.Clashes;
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
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** Aspects that are told apart by the positions of arms, and by night look alike. */
public final class TwinsByNight implements Check.OfBook {
  private static final int MOST_TOLD = 1_000;
  private static final BitSet NOT_DONE = new BitSet();

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    Map<Display, Display> lamps = facts.book().byNight();
    if (lamps.isEmpty()) {
      return found;
    }
    for (Look look : facts.looks()) {
      PatternTable night = PatternTable.of(facts, look, d -> lamps.getOrDefault(d, d));
      List<AspectPattern> untold = new ArrayList<>();
      Clashes.eachOnlyIn(
          night.table(),
          PatternTable.of(facts, look).table(),
          (first, second) -> {
            AspectPattern one = look.shown().get(first);
            AspectPattern other = look.shown().get(second);
            if (one.pattern().moreSpecificThan(other.pattern())
                || other.pattern().moreSpecificThan(one.pattern())) {
              return NOT_DONE;
            }
            if (found.size() >= MOST_TOLD) {
              untold.add(one);
              return NOT_DONE;
            }
            found.add(report(look, one, other, night.picture(night.shared(first, second))));
            BitSet told = new BitSet();
            told.set(night.table().rows().get(first).result());
            told.set(night.table().rows().get(second).result());
            return told;
          });
      if (!untold.isEmpty()) {
        found.add(more(look, untold));
      }
    }
    return found;
  }

  private Diagnostic report(
      Look look, AspectPattern one, AspectPattern other, List<Display> picture) {
    List<AspectPattern> shown =
        Stream.of(one, other).sorted(Comparator.comparing(s -> s.pattern().span())).toList();
    List<String> names = shown.stream().map(s -> s.aspect().name()).toList();
    List<String> forms = look.forms().stream().map(Form::name).toList();
    return finding(
            Severity.WARNING,
            shown.get(0).pattern().span(),
            Words.say("%s look alike by night on %s", Words.quoted(names, n -> n), look.words()))
        .about(Words.both(forms, names))
        .label("shows \"" + names.get(0) + "\"")
        .related(shown.get(1).pattern().span(), "shows \"" + names.get(1) + "\"")
        .words("forms", forms)
        .words("aspects", names)
        .fact("both show", Display.over(picture))
        .because(
            "by day an arm is read by its position, by night by the colour of its lamp, and one picture has one name",
            "49 CFR 236.23(c)")
        .help(
            Words.say(
                "let the lamp show another colour in one of the positions, or say why it may stay: accept twins-by-night of \"%s\" and \"%s\" on %s because \"…\"",
                names.get(0), names.get(1), String.join(", ", forms)));
  }

  /** One for all pairs beyond those that anybody mends at one go. */
  private Diagnostic more(Look look, List<AspectPattern> untold) {
    List<String> forms = look.forms().stream().map(Form::name).toList();
    return finding(
            Severity.WARNING,
            untold.get(0).pattern().span(),
            Words.say(
                "%,d more %s look alike by night on %s",
                untold.size(),
                untold.size() == 1 ? "pair of patterns" : "pairs of patterns",
                look.words()))
        .about(forms)
        .words("forms", forms)
        .number("more", untold.size(), "pair")
        .because(Words.say("of one book, at most %,d pairs are told", MOST_TOLD))
        .help("mend what is told, and check again");
  }
}
