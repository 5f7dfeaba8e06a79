package dev.doublet.check.colour;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Figure;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;

/** An aspect that a single white light can show. */
public final class LoneWhite implements Check.OfBook {
  private static final Set<String> WHITE = Set.of("white", "warm-white");

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Set<String> whites = whites(facts.book());
    if (whites.isEmpty()) {
      return List.of();
    }
    List<Diagnostic> found = new ArrayList<>();
    for (Aspect aspect : facts.book().aspects()) {
      Map<Span, List<String>> places = new LinkedHashMap<>();
      for (Form form : facts.book().forms()) {
        aspect.patternsOn(form).stream()
            .filter(pattern -> canBeLone(whites, pattern))
            .findFirst()
            .map(pattern -> places.computeIfAbsent(pattern.span(), p -> new ArrayList<>()))
            .ifPresent(forms -> forms.add(form.name()));
      }
      places.forEach((place, forms) -> found.add(report(aspect, place, forms)));
    }
    return found;
  }

  private static boolean canBeLone(Set<String> whites, Pattern pattern) {
    List<Choice> choices = pattern.choices();
    for (int head = 0; head < choices.size(); head++) {
      int here = head;
      boolean white =
          choices.get(head).displays().stream().anyMatch(d -> whites.contains(d.look()));
      boolean othersDark =
          IntStream.range(0, choices.size())
              .filter(other -> other != here)
              .allMatch(other -> choices.get(other).accepts(Display.DARK));
      if (white && othersDark) {
        return true;
      }
    }
    return false;
  }

  /** The colours and figures that are one white light. A figure hides a colour of its name. */
  private static Set<String> whites(Rulebook book) {
    Set<String> colours = new HashSet<>();
    book.colours().stream()
        .filter(c -> WHITE.contains(c.published()))
        .forEach(c -> colours.add(c.name()));
    Set<String> whites = new HashSet<>(colours);
    Set<String> figures = new HashSet<>();
    for (HeadType head : book.heads()) {
      for (Figure figure : head.figures()) {
        if (figures.add(figure.name())) {
          whites.remove(figure.name());
          if (figure.lit().size() == 1 && colours.contains(figure.lit().get(0).colour())) {
            whites.add(figure.name());
          }
        }
      }
    }
    return whites;
  }

  /** One finding for all forms that one pattern is written for. */
  private Diagnostic report(Aspect aspect, Span place, List<String> forms) {
    return finding(
            Severity.WARNING,
            place,
            Words.say(
                "a lone white light shows \"%s\" on %s %s",
                aspect.name(), Words.plural(forms.size(), "form"), Words.list(forms)))
        .about(Words.both(List.of(aspect.name()), forms))
        .label("one white light, all else dark")
        .word("aspect", aspect.name())
        .words("forms", forms)
        .because(
            "every lamp near a railway is white, and a broken lens turns any colour white: a lone white light must not be an aspect",
            "49 CFR 236.23(a)(1)")
        .help("show lunar, which is bluish and not white, or a second light with it");
  }
}
