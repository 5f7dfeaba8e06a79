package dev.doublet.rulebook;

import dev.doublet.diagnostic.Acceptance;
import dev.doublet.source.Mentions;
import dev.doublet.source.Span;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A rulebook with every name resolved. Where its text is broken, it is what could be read of it.
 *
 * @param title as its first line says
 * @param edition 0 to 65,535
 * @param effective the date from which it holds, as year-month-day; may be empty
 * @param unit "mph" or "km/h"; empty when no speed is declared
 * @param colourSet the set of published signal colours that its colours must be of; empty when it
 *     asks for none
 * @param speeds sorted by name, as are all lists here but the aspects
 * @param numbers the numbers that its numerals show
 * @param aspects sorted by number, then name; those without a number last
 * @param failures what it says of signals that fail
 * @param expectations what it says of itself to be held against its aspects, sorted by their words
 * @param acceptances the warnings it lives with, in their order
 * @param unread what of it could not be read
 * @param mentions where its names are written
 * @param span its first line
 */
public record Rulebook(
    String title,
    int edition,
    String effective,
    String unit,
    String colourSet,
    List<Speed> speeds,
    Numbers numbers,
    List<Colour> colours,
    List<Rhythm> rhythms,
    List<HeadType> heads,
    List<Form> forms,
    List<Plate> plates,
    List<Aspect> aspects,
    Failures failures,
    List<Expectation> expectations,
    List<Acceptance> acceptances,
    Unread unread,
    Mentions mentions,
    Span span) {

  /** Copies and sorts the lists. */
  public Rulebook {
    speeds = speeds.stream().sorted(Comparator.comparing(Speed::name)).toList();
    colours = colours.stream().sorted(Comparator.comparing(Colour::name)).toList();
    rhythms = rhythms.stream().sorted(Comparator.comparing(Rhythm::name)).toList();
    heads = heads.stream().sorted(Comparator.comparing(HeadType::name)).toList();
    forms = forms.stream().sorted(Comparator.comparing(Form::name)).toList();
    plates = plates.stream().sorted(Comparator.comparing(Plate::name)).toList();
    aspects = aspects.stream().sorted(ASPECT_ORDER).toList();
    expectations = expectations.stream().sorted(Comparator.comparing(Expectation::words)).toList();
    acceptances = acceptances.stream().sorted(Acceptance.ORDER).toList();
  }

  private static final Comparator<Aspect> ASPECT_ORDER =
      Comparator.comparingInt(
              (Aspect a) -> a.number() == Aspect.NO_NUMBER ? Integer.MAX_VALUE : a.number())
          .thenComparing(Aspect::name);

  /** True when nothing is wrong with it, so that what it does not say is not said anywhere. */
  public boolean isWhole() {
    return !unread.any();
  }

  /** The aspect known to be at least as restrictive as every other; empty when there is none. */
  public Optional<Aspect> mostRestrictive() {
    return mostRestrictive(aspects);
  }

  /** The first of these known to be at least as restrictive as every other of them. */
  public static Optional<Aspect> mostRestrictive(List<Aspect> among) {
    Set<Permission> all = among.stream().map(Aspect::permission).collect(Collectors.toSet());
    Set<Permission> least =
        all.stream()
            .filter(p -> all.stream().allMatch(p::atLeastAsRestrictiveAs))
            .collect(Collectors.toSet());
    return among.stream().filter(a -> least.contains(a.permission())).findFirst();
  }

  /** The colour of that name. */
  public Optional<Colour> colour(String name) {
    return colours.stream().filter(c -> c.name().equals(name)).findFirst();
  }

  /** The rhythm of that name. */
  public Optional<Rhythm> rhythm(String name) {
    return rhythms.stream().filter(r -> r.name().equals(name)).findFirst();
  }

  /** The form of that name. */
  public Optional<Form> form(String name) {
    return forms.stream().filter(f -> f.name().equals(name)).findFirst();
  }

  /** True for a figure of some head with rhythms of its own, and for a position of an arm. */
  public boolean takesNoRhythm(String look) {
    return heads.stream().anyMatch(head -> head.takesNoRhythm(look));
  }

  /** What the lamps of arms show in each position, for a crew that sees no more by night. */
  public Map<Display, Display> byNight() {
    Map<Display, Display> seen = new HashMap<>();
    for (HeadType arm : heads.stream().filter(HeadType::isArm).toList()) {
      for (Figure position : arm.figures()) {
        for (Lit lit : position.lit()) {
          seen.put(Display.steady(position.name()), Display.steady(lit.colour()));
        }
      }
    }
    return seen;
  }

  /** The aspect of that name, of one number where the name says so. */
  public Optional<Aspect> aspect(String name) {
    return aspects.stream().flatMap(a -> a.named(name).stream()).findFirst();
  }

  /** The name that an aspect is declared by: "Slow {n}" for "Slow 6", and for "Slow {m}". */
  public String declared(String name) {
    return numbers.figures().isEmpty()
        ? name
        : aspect(numbers.in(name))
            .map(Aspect::numerals)
            .filter(numerals -> !numerals.letters().isEmpty())
            .map(Numerals::family)
            .orElse(name);
  }

  /**
   * The aspects of some names. Where letters in them stand for any number, once for each number
   * that a letter may stand for, and it stands for the same in all of them.
   */
  public List<List<Aspect>> together(String... names) {
    List<String> letters =
        numbers.figures().isEmpty() ? List.of() : Numerals.lettersOf(String.join(" ", names));
    return numbers.each(letters.size()).stream()
        .map(figures -> new Numerals("", letters, numbers, figures))
        .map(n -> Stream.of(names).map(n::in).map(name -> aspect(name).orElseThrow()).toList())
        .toList();
  }
}
