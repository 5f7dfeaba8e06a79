package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;

/**
 * One way in which a form shows an aspect.
 *
 * @param form the form
 * @param plates names of the plates the signal must carry, sorted; empty for none in particular
 * @param choices what each head may show, top to bottom, as many as the form has places
 * @param span where it is written
 */
public record Pattern(Form form, List<String> plates, List<Choice> choices, Span span) {

  /** Copies the lists and sorts the plates. */
  public Pattern {
    plates = plates.stream().sorted().toList();
    choices = List.copyOf(choices);
    if (choices.size() != form.places().size()) {
      throw new IllegalArgumentException("a pattern has one choice for each place of its form");
    }
  }

  /** Cheap, as patterns are told apart by where they are written. */
  @Override
  public int hashCode() {
    return span.hashCode();
  }

  /** The same on signals that also carry a plate, as said at another place. */
  Pattern with(Plate plate, Span place) {
    List<String> more = new ArrayList<>(plates);
    if (!more.contains(plate.name())) {
      more.add(plate.name());
    }
    return new Pattern(form, more, choices, place);
  }

  /** What it says when heads that are usually dark, and are here, are left unsaid. */
  public List<Choice> said() {
    List<Choice> said = new ArrayList<>();
    boolean asUsual = true;
    for (int i = 0; i < choices.size(); i++) {
      boolean usuallyDark = form.usuallyDark().contains(form.places().get(i));
      asUsual &= !usuallyDark || choices.get(i).displays().equals(List.of(Display.DARK));
      if (!usuallyDark) {
        said.add(choices.get(i));
      }
    }
    return asUsual ? said : choices;
  }

  /** The same with other choices. */
  Pattern with(UnaryOperator<Choice> others) {
    return new Pattern(form, plates, choices.stream().map(others).toList(), span);
  }

  /** The letters of its numerals, top to bottom. */
  List<String> letters() {
    return choices.stream().map(Choice::letter).filter(l -> !l.isEmpty()).toList();
  }

  /** True when some head shows a number, whichever it is. */
  public boolean hasNumeral() {
    return choices.stream().anyMatch(c -> !c.letter().isEmpty());
  }

  /** True when this pattern covers a picture, whatever the plates. */
  public boolean covers(List<Display> picture) {
    for (int i = 0; i < choices.size(); i++) {
      if (!choices.get(i).accepts(picture.get(i))) {
        return false;
      }
    }
    return true;
  }

  /** True when this pattern names all the plates of another and at least one more. */
  public boolean moreSpecificThan(Pattern other) {
    return plates.size() > other.plates.size() && plates.containsAll(other.plates);
  }

  /** True when this is on the same form and plates as another, and covers all that it does. */
  public boolean saysAllOf(Pattern other) {
    boolean all = form.equals(other.form) && plates.equals(other.plates);
    for (int i = 0; all && i < choices.size(); i++) {
      all = choices.get(i).acceptsAll(other.choices.get(i));
    }
    return all;
  }

  /** True when some picture is covered by both, whatever the plates. */
  public boolean meets(Pattern other) {
    for (int i = 0; i < choices.size(); i++) {
      if (!choices.get(i).meets(other.choices.get(i))) {
        return false;
      }
    }
    return true;
  }

  /** The picture a signal puts up for this pattern. */
  public List<Display> shown() {
    return choices.stream().map(Choice::shown).toList();
  }

  /** As the language says it: "red over (lunar or dark)". */
  public String words() {
    return choices.stream().map(Choice::words).collect(Collectors.joining(" over "));
  }
}
