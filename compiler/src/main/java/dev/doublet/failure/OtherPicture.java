package dev.doublet.failure;

import dev.doublet.failure.Site.AspectPicture;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Figure;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/**
 * Another picture for an aspect that removes a hazard: one head otherwise lit. It must mean nothing
 * yet, and every signal that shows the aspect so must be able to show it.
 */
final class OtherPicture {
  /**
   * What the colours of lights stand for (49 CFR 236.23(d)): stop, a speed to be restricted,
   * proceed. No picture is named that shows more than the present one does.
   */
  private static final Map<String, Integer> STAND_FOR =
      Map.of("red", 0, "yellow", 1, "lunar", 1, "green", 2);

  private static final int NOTHING = -1;

  private final Before before;
  private final Map<Object, Change> changes = new HashMap<>();
  private BookPatterns patternsOrNull;

  OtherPicture(Before before) {
    this.before = before;
  }

  /** What a head may show instead of what it shows at a site. */
  private interface Others {
    Set<Display> of(Site site, int head, Display present);
  }

  /**
   * The same colours and figures in another rhythm, or at a dark head a marker such as the most
   * restrictive aspect shows there. Empty when none is found, and for pairs of faults.
   */
  Optional<Remedy> byRhythmOrMarker(Hazard hazard) {
    return first(hazard, OtherPicture::rhythmsOrMarker);
  }

  /** A steady colour or figure that stands for no more; empty as above. */
  Optional<Remedy> byColourOrFigure(Hazard hazard) {
    return first(hazard, OtherPicture::looks);
  }

  private Optional<Remedy> first(Hazard hazard, Others others) {
    BookPatterns book = patterns(hazard.site().crew().book());
    List<Display> present = hazard.first().shown().picture();
    Set<Pattern> misread = new LinkedHashSet<>();
    hazard.found().forEach(f -> misread.add(f.one().shown().by().pattern()));
    Set<Pattern> patterns = book.writtenWith(misread);
    boolean onePicture =
        hazard.found().stream().allMatch(f -> f.one().shown().picture().equals(present));
    boolean oneNumber = patterns.stream().noneMatch(Pattern::hasNumeral);
    if (hazard.isPair()
        || !onePicture
        || !oneNumber
        || before.isTooMuch()
        || haveRivals(book, patterns)) {
      return Optional.empty();
    }
    List<Site> showing =
        before.sites().stream()
            .filter(s -> s.shown().stream().anyMatch(o -> patterns.contains(o.by().pattern())))
            .toList();
    return variants(showing, present, others).stream()
        .filter(picture -> isFree(book, hazard.first().meant(), picture))
        .map(picture -> change(book, patterns, picture))
        .filter(change -> change.removes(hazard) && change.isHarmless())
        .findFirst()
        .map(change -> new Remedy.OtherPicture(change.picture()));
  }

  /** Those of the one book that all sites have. */
  private BookPatterns patterns(Rulebook book) {
    if (patternsOrNull == null) {
      patternsOrNull = new BookPatterns(book);
    }
    return patternsOrNull;
  }

  private Change change(BookPatterns book, Set<Pattern> patterns, List<Display> picture) {
    return changes.computeIfAbsent(
        List.of(patterns, picture), key -> new Change(before, book, patterns, picture));
  }

  /**
   * True when some pictures are covered twice: with other plates, or by what is written elsewhere.
   */
  private static boolean haveRivals(BookPatterns book, Set<Pattern> patterns) {
    return patterns.stream()
        .anyMatch(
            one ->
                book.of(one.form()).meeting(one).stream()
                    .map(Reads::pattern)
                    .anyMatch(other -> !patterns.contains(other) && areOfOneSignal(one, other)));
  }

  private static boolean areOfOneSignal(Pattern one, Pattern other) {
    return one.plates().containsAll(other.plates()) || other.plates().containsAll(one.plates());
  }

  /** Pictures that differ at one head and that all heads can show. */
  private static Set<List<Display>> variants(
      List<Site> showing, List<Display> present, Others others) {
    Set<List<Display>> variants = new LinkedHashSet<>();
    for (int at = 0; at < present.size(); at++) {
      int head = at;
      Display was = present.get(head);
      for (Display other : others.of(showing.get(0), head, was)) {
        if (showing.stream().allMatch(s -> isAble(s, head, was, other))) {
          List<Display> picture = new ArrayList<>(present);
          picture.set(head, other);
          variants.add(picture);
        }
      }
    }
    return variants;
  }

  /**
   * True when no pattern of any form of as many heads covers a picture, however they stand, and
   * none of another aspect lights the same on a form of more or fewer heads.
   */
  private static boolean isFree(BookPatterns book, Aspect meant, List<Display> picture) {
    List<Display> lit = picture.stream().filter(d -> !d.equals(Display.DARK)).toList();
    return book.forms().stream()
        .noneMatch(
            form ->
                form.heads() == picture.size()
                    ? !form.covering(picture).isEmpty()
                    : form.patterns().stream()
                        .filter(other -> !other.aspect().isOf(meant))
                        .anyMatch(other -> lights(other.pattern().choices(), lit)));
  }

  /** True when heads may light just so, in this order, and be dark otherwise. */
  private static boolean lights(List<Choice> choices, List<Display> lit) {
    if (choices.size() < lit.size()) {
      return false;
    }
    if (choices.isEmpty()) {
      return true;
    }
    Choice first = choices.get(0);
    List<Choice> rest = choices.subList(1, choices.size());
    return first.accepts(Display.DARK) && lights(rest, lit)
        || !lit.isEmpty() && first.accepts(lit.get(0)) && lights(rest, lit.subList(1, lit.size()));
  }

  /** True when the head that shows one display can show the other. */
  private static boolean isAble(Site site, int head, Display present, Display other) {
    return site.types(head, present).stream().anyMatch(h -> h.lights(other.look()).isPresent())
        || site.crew().book().heads().isEmpty();
  }

  private static Set<Display> rhythmsOrMarker(Site site, int head, Display present) {
    return present.equals(Display.DARK)
        ? marker(site, head)
        : otherRhythms(site.crew().book(), present);
  }

  private static Set<Display> otherRhythms(Rulebook book, Display present) {
    Set<Display> others = new LinkedHashSet<>();
    if (!book.takesNoRhythm(present.look())) {
      others.add(Display.steady(present.look()));
      book.rhythms().forEach(r -> others.add(new Display(present.look(), r.name())));
      others.remove(present);
    }
    return others;
  }

  /** What the most restrictive aspect shows at a head. */
  private static Set<Display> marker(Site site, int head) {
    List<Aspect> aspects = site.shown().stream().map(AspectPicture::aspect).toList();
    Set<Display> marker = new LinkedHashSet<>();
    Rulebook.mostRestrictive(aspects)
        .flatMap(a -> site.shown().stream().filter(s -> s.aspect().equals(a)).findFirst())
        .map(s -> s.picture().get(head))
        .filter(d -> !d.equals(Display.DARK))
        .ifPresent(marker::add);
    return marker;
  }

  /** Steady colours, then figures, that stand for no more than the present one. */
  private static Set<Display> looks(Site site, int head, Display present) {
    Rulebook book = site.crew().book();
    Set<String> looks = new LinkedHashSet<>();
    book.colours().forEach(c -> looks.add(c.name()));
    book.heads().stream()
        .flatMap(h -> h.figures().stream())
        .map(Figure::name)
        .sorted()
        .forEach(looks::add);
    looks.remove(present.look());
    int most = standsFor(book, present.look()).orElse(NOTHING);
    looks.removeIf(look -> standsFor(book, look).stream().noneMatch(it -> it <= most));
    Set<Display> others = new LinkedHashSet<>();
    looks.forEach(look -> others.add(Display.steady(look)));
    return others;
  }

  /** What the lights of a colour or figure stand for; empty when some stand for nothing known. */
  private static OptionalInt standsFor(Rulebook book, String look) {
    Set<String> colours = new LinkedHashSet<>();
    book.heads().stream()
        .flatMap(h -> h.figures().stream())
        .filter(f -> f.name().equals(look))
        .forEach(f -> f.lit().forEach(lit -> colours.add(lit.colour())));
    if (colours.isEmpty()) {
      colours.add(look);
    }
    int most = NOTHING;
    for (String colour : colours) {
      Optional<Integer> one = book.colour(colour).map(Colour::published).map(STAND_FOR::get);
      if (one.isEmpty()) {
        return OptionalInt.empty();
      }
      most = Math.max(most, one.get());
    }
    return OptionalInt.of(most);
  }
}
