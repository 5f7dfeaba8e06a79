package dev.doublet.rulebook;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * A way to say that the last patterns of an aspect are those of another one with a plate.
 *
 * @param forms all that the patterns are on
 * @param exceptions what the other aspect has more there
 * @param isWhole true when the other aspect stands on no other form
 * @param patterns how many patterns it stands for
 */
record Likeness(
    Aspect other,
    Set<Form> forms,
    Plate plate,
    List<Exempt> exceptions,
    boolean isWhole,
    int patterns) {

  /**
   * Every such way; none to another aspect that comes later by name, so that there is no circle.
   */
  static List<Likeness> all(Aspect aspect, Aspect other, Rulebook book) {
    List<Likeness> all = new ArrayList<>();
    if (other.name().compareTo(aspect.name()) >= 0) {
      return all;
    }
    Set<Form> forms = new LinkedHashSet<>();
    for (int i = aspect.patterns().size() - 1; i >= 0; i--) {
      List<Pattern> last = aspect.patterns().subList(i, aspect.patterns().size());
      last.forEach(p -> forms.add(p.form()));
      List<Pattern> source =
          other.patterns().stream().filter(p -> forms.contains(p.form())).toList();
      for (Plate plate : book.plates()) {
        List<Pattern> kept =
            source.stream().filter(p -> last.contains(p.with(plate, p.span()))).toList();
        List<Exempt> exceptions = exceptions(source, kept);
        boolean like =
            kept.stream().map(p -> p.with(plate, p.span())).toList().equals(last)
                && exceptions.stream().allMatch(e -> e.mistake(other, source).isEmpty())
                && kept.stream().noneMatch(p -> exceptions.stream().anyMatch(e -> e.covers(p)));
        if (like) {
          boolean whole = source.equals(other.patterns());
          all.add(
              new Likeness(
                  other, new LinkedHashSet<>(forms), plate, exceptions, whole, last.size()));
        }
      }
    }
    return all;
  }

  /** What some patterns have more than others, without what lies inside another exception. */
  private static List<Exempt> exceptions(List<Pattern> all, List<Pattern> kept) {
    List<Pattern> left = all.stream().filter(p -> !kept.contains(p)).toList();
    return left.stream()
        .map(p -> new Exempt(p.choices(), p.span()))
        .distinct()
        .filter(e -> left.stream().noneMatch(p -> isInside(e.choices(), p.choices())))
        .toList();
  }

  private static boolean isInside(List<Choice> one, List<Choice> other) {
    boolean inside = one.size() == other.size();
    boolean same = inside;
    for (int i = 0; inside && i < one.size(); i++) {
      inside = other.get(i).acceptsAll(one.get(i));
      same &= one.get(i).acceptsAll(other.get(i));
    }
    return inside && !same;
  }
}
