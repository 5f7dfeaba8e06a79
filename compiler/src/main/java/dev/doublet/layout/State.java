package dev.doublet.layout;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import java.util.List;
import java.util.Optional;

/**
 * One thing that a command can call up on a unit: an aspect of a whole signal, or a display of a
 * head commanded by itself.
 *
 * @param name the aspect's name, or the display in words
 * @param number the aspect's number, or its place in the signal's list from 0 when any aspect of
 *     the list has no number, or the display's place in its list from 0; 0 to 255
 * @param picture what each head of the unit shows, top to bottom
 * @param lit what each lamp of the unit shows, in chain order; a dark lamp is {@link Display#DARK}
 *     and a lit one names a colour, never a figure
 * @param aspectOrNull the aspect, for a whole signal
 */
public record State(
    String name, int number, List<Display> picture, List<Display> lit, Aspect aspectOrNull) {

  /** Copies the lists. */
  public State {
    picture = List.copyOf(picture);
    lit = List.copyOf(lit);
  }

  /** Cheap, as names are unique in a kind. */
  @Override
  public int hashCode() {
    return name.hashCode();
  }

  /** The aspect; empty for a head commanded by itself. */
  public Optional<Aspect> aspect() {
    return Optional.ofNullable(aspectOrNull);
  }
}
