package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * An aspect: one name, one permission, and the patterns that show it.
 *
 * @param name as the rulebook says it
 * @param was names that it had in earlier editions, in the order written
 * @param rule the rule's number in the rulebook; may be empty
 * @param number the value that calls it up on a bus, 0 to 255; -1 when none is given
 * @param indication what it tells the crew to do, in the rulebook's words; may be empty
 * @param permission what it allows
 * @param patterns every alternative on every form, in the order written
 * @param numerals the letters of its name that stand for numbers
 * @param span where it is named
 * @param permissionSpan where its permission is written
 */
public record Aspect(
    String name,
    List<String> was,
    String rule,
    int number,
    String indication,
    Permission permission,
    List<Pattern> patterns,
    Numerals numerals,
    Span span,
    Span permissionSpan) {
  /** The {@link #number} of an aspect that has none. */
  public static final int NO_NUMBER = -1;

  /** Copies the lists. */
  public Aspect {
    was = List.copyOf(was);
    patterns = List.copyOf(patterns);
  }

  /** Cheap, as names are unique in a book. */
  @Override
  public int hashCode() {
    return name.hashCode();
  }

  /** The same with other patterns. */
  public Aspect with(List<Pattern> others) {
    return new Aspect(
        name, was, rule, number, indication, permission, others, numerals, span, permissionSpan);
  }

  /** The same with other letters, as many, in their order. */
  public Aspect lettered(List<String> others) {
    Map<String, String> now = new HashMap<>();
    for (int i = 0; i < others.size(); i++) {
      now.put(numerals.letters().get(i), others.get(i));
    }
    return new Aspect(
        Numerals.lettered(name, now),
        was,
        rule,
        number,
        Numerals.lettered(indication, now),
        permission.with(speed -> speed.named(Numerals.lettered(speed.name(), now))),
        patterns.stream()
            .map(
                p ->
                    p.with(
                        c ->
                            new Choice(
                                c.displays(), now.getOrDefault(c.letter(), c.letter()), c.span())))
            .toList(),
        numerals.lettered(others),
        span,
        permissionSpan);
  }

  /** The same with what it has from another aspect. */
  Aspect completed(List<Pattern> all, Permission allowed, Span allowedSpan) {
    return new Aspect(
        name, was, rule, number, indication, allowed, all, numerals, span, allowedSpan);
  }

  /** The name under which the book has it: that of the family, where it is of one number. */
  public String family() {
    return numerals.family().isEmpty() ? name : numerals.family();
  }

  /** True when it is one of the aspects of another, or that one itself. */
  public boolean isOf(Aspect other) {
    return family().equals(other.family());
  }

  /** Every aspect that it stands for: itself, unless its letters stand for any number. */
  public List<Aspect> each() {
    return numerals.isOpen()
        ? numerals.numbers().each(numerals.letters().size()).stream().map(this::at).toList()
        : List.of(this);
  }

  /**
   * Names of some aspects; those of all numbers by the name of the family, in its first's place.
   */
  public static List<String> names(List<Aspect> some) {
    Map<String, List<Aspect>> families = new LinkedHashMap<>();
    some.forEach(a -> families.computeIfAbsent(a.family(), f -> new ArrayList<>()).add(a));
    List<String> names = new ArrayList<>();
    families.forEach(
        (family, its) -> {
          Numerals numerals = its.get(0).numerals();
          boolean whole = its.size() == numerals.numbers().each(numerals.letters().size()).size();
          if (whole) {
            names.add(family);
          } else {
            its.forEach(a -> names.add(a.name()));
          }
        });
    return names;
  }

  /** The one of its aspects that has a name; empty when none has. */
  public Optional<Aspect> named(String other) {
    if (name.equals(other)) {
      return Optional.of(this);
    }
    return numerals.isOpen() ? numerals.named(other).map(this::at) : Optional.empty();
  }

  /** The aspect that it is when its letters stand for some numbers. */
  private Aspect at(List<Integer> figures) {
    Numerals bound = numerals.at(figures);
    return new Aspect(
        bound.in(name),
        was.stream().map(bound::in).toList(),
        rule,
        number == NO_NUMBER ? number : number + numerals.numbers().place(figures),
        bound.in(indication),
        permission.with(bound::in),
        patterns,
        bound,
        span,
        permissionSpan);
  }

  /** The aspect that it is when a pattern of its own shows a picture. */
  Aspect seenBy(Pattern pattern, List<Display> picture) {
    if (!numerals.isOpen()) {
      return this;
    }
    List<Integer> figures = new ArrayList<>();
    for (String letter : numerals.letters()) {
      for (int head = 0; head < picture.size(); head++) {
        if (pattern.choices().get(head).letter().equals(letter)) {
          figures.add(Integer.valueOf(picture.get(head).look()));
        }
      }
    }
    return figures.size() == numerals.letters().size() ? at(figures) : this;
  }

  /** A pattern of its own with only the numbers that its letters stand for. */
  public Pattern shownBy(Pattern pattern) {
    return numerals.shown().isEmpty() ? pattern : pattern.with(numerals::in);
  }

  /** The patterns on one form, in the order written. */
  public List<Pattern> patternsOn(Form form) {
    return patterns.stream().filter(p -> p.form().equals(form)).toList();
  }
}
