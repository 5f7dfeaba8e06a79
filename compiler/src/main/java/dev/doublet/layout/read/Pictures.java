package dev.doublet.layout.read;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Which picture a signal puts up for an aspect, and which LEDs that lights. */
final class Pictures {
  private Pictures() {}

  /**
   * The aspects that a form with some plates can be told to show: those with a pattern there that a
   * crew still reads as that aspect when no more specific pattern outdoes it; of an aspect of many
   * numbers those of which that is true, if not of all. In book order.
   */
  static List<Aspect> aspectsOf(Rulebook book, Form form, List<String> plates) {
    List<Aspect> aspects = new ArrayList<>();
    for (Aspect aspect : book.aspects()) {
      List<Aspect> all = held(aspect, form, plates).count() == 0 ? List.of() : aspect.each();
      List<Aspect> read =
          all.stream()
              .filter(a -> held(a, form, plates).anyMatch(p -> reads(book, p, plates, a)))
              .toList();
      aspects.addAll(read.size() == all.size() && !all.isEmpty() ? List.of(aspect) : read);
    }
    return aspects;
  }

  /**
   * The picture that heads put up for an aspect: by the most specific pattern that all of them can
   * show, the first written of equals; of a choice the first display that the head can show.
   */
  static Optional<List<Display>> of(
      Aspect aspect, Form form, List<String> plates, List<HeadType> heads) {
    return held(aspect, form, plates)
        .sorted(Comparator.comparingInt(p -> -p.plates().size()))
        .flatMap(pattern -> shown(pattern, heads).stream())
        .findFirst();
  }

  /** What each LED shows, in chain order. */
  static List<Display> lit(List<Display> picture, List<HeadType> heads, List<Integer> wired) {
    List<Display> lit = new ArrayList<>();
    for (int place : wired) {
      HeadType head = heads.get(place);
      Display display = picture.get(place);
      List<Display> lamps = new ArrayList<>(Collections.nCopies(head.lamps().size(), Display.DARK));
      for (Lit lamp : head.lights(display.look()).orElseThrow()) {
        lamps.set(lamp.lamp(), lamp.shown(display));
      }
      lit.addAll(lamps);
    }
    return lit;
  }

  private static Stream<Pattern> held(Aspect aspect, Form form, List<String> plates) {
    return aspect.patternsOn(form).stream()
        .filter(p -> plates.containsAll(p.plates()))
        .map(aspect::shownBy);
  }

  private static boolean reads(Rulebook book, Pattern pattern, List<String> plates, Aspect aspect) {
    return Reading.of(book, pattern.form(), plates, pattern.shown()).stream()
        .anyMatch(r -> r.aspect().name().equals(aspect.name()));
  }

  private static Optional<List<Display>> shown(Pattern pattern, List<HeadType> heads) {
    List<Display> picture = new ArrayList<>();
    for (int i = 0; i < heads.size(); i++) {
      Optional<Display> display = shown(pattern.choices().get(i), heads.get(i));
      if (display.isEmpty()) {
        return Optional.empty();
      }
      picture.add(display.get());
    }
    return Optional.of(picture);
  }

  private static Optional<Display> shown(Choice choice, HeadType head) {
    return choice.isAny()
        ? Optional.of(head.safest())
        : choice.displays().stream().filter(d -> head.lights(d.look()).isPresent()).findFirst();
  }
}
