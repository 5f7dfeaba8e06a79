package dev.doublet.check.ambiguity;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Figures of one head, or figures and a plain colour, that light the same lamps. */
public final class TwinFigures implements Check.OfBook {

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (HeadType head : facts.book().heads().stream().filter(h -> !h.isArm()).toList()) {
      Map<Set<Object>, List<Named>> seen = new LinkedHashMap<>();
      for (Named look : looks(facts, head)) {
        seen.computeIfAbsent(seen(facts, look.lit()), lit -> new ArrayList<>()).add(look);
      }
      seen.values().stream()
          .filter(alike -> alike.size() > 1)
          .forEach(alike -> found.add(report(head, alike)));
    }
    return found;
  }

  /**
   * What a crew makes of some lights. It sees at what rate they flash and whether two flash
   * together or take turns, but not which of them began.
   */
  private static Set<Object> seen(BookFacts facts, List<Lit> lights) {
    Set<Object> seen = new HashSet<>();
    Optional<Rhythm> first =
        lights.stream().flatMap(l -> facts.book().rhythm(l.rhythm()).stream()).findFirst();
    for (Lit lit : lights) {
      Optional<Rhythm> rhythm = facts.book().rhythm(lit.rhythm());
      Object flash =
          rhythm
              .<Object>map(
                  r ->
                      List.of(
                          r.perMinute(),
                          r.litPercent(),
                          r.startsDark() == first.orElseThrow().startsDark()))
              .orElse("");
      seen.add(List.of(lit.lamp(), lit.colour(), flash));
    }
    return seen;
  }

  private record Named(String name, List<Lit> lit, Span span) {}

  private static List<Named> looks(BookFacts facts, HeadType head) {
    List<Named> looks = new ArrayList<>();
    for (Colour colour : facts.book().colours()) {
      boolean plain = head.figures().stream().noneMatch(f -> f.name().equals(colour.name()));
      if (plain) {
        head.lights(colour.name())
            .ifPresent(
                lit ->
                    looks.add(
                        new Named(colour.name(), lit, head.lamps().get(lit.get(0).lamp()).span())));
      }
    }
    head.figures().stream()
        .sorted(java.util.Comparator.comparing(f -> f.span()))
        .forEach(f -> looks.add(new Named(f.name(), f.lit(), f.span())));
    return looks;
  }

  private Diagnostic report(HeadType head, List<Named> alike) {
    Named first = alike.get(0);
    Named second = alike.get(1);
    List<String> names = alike.stream().map(Named::name).toList();
    return finding(
            Severity.ERROR,
            second.span(),
            Words.say(
                "%s light the same lamps of head %s",
                Words.quoted(names, name -> name), head.name()))
        .about(Words.both(List.of(head.name()), names))
        .label("\"" + second.name() + "\"")
        .word("head", head.name())
        .words("figures", names)
        .related(first.span(), "\"" + first.name() + "\"")
        .alsoAt(
            alike.stream()
                .skip(2)
                .map(one -> new Label(one.span(), "\"" + one.name() + "\""))
                .toList())
        .because(
            "a pattern that asks for one would show the other: one picture, two names",
            "49 CFR 236.23(c)")
        .help("let one of them light other lamps, or use one name in all patterns");
  }
}
