package dev.doublet.layout;

import dev.doublet.source.Span;
import java.util.List;

/**
 * What one command drives: a whole signal, or one head of a signal commanded by itself.
 *
 * @param name the signal's name, or the signal's and the place's ("W3 bottom")
 * @param signal the signal's name
 * @param kind what it has in common with others
 * @param chain the chain it hangs on
 * @param led its first LED on the chain, from 0
 * @param command where it listens
 * @param dimming how much less bright than its chain it is
 * @param servos what moves its arms; empty where nothing of the table does
 * @param span where it is declared
 */
public record Unit(
    String name,
    String signal,
    Kind kind,
    Chain chain,
    int led,
    Command command,
    Dimming dimming,
    List<Servo> servos,
    Span span) {

  /** Copies the list. */
  public Unit {
    servos = List.copyOf(servos);
  }

  /** Cheap, as names are unique on a layout. */
  @Override
  public int hashCode() {
    return name.hashCode();
  }

  /** How bright a lamp is by day, by its place in chain order. */
  public Brightness brightness(int lamp) {
    return Brightness.of(chain.brightness(), dimming.percent(), dimming.lamp(lamp));
  }

  /** The same by night. */
  public Brightness byNight(int lamp) {
    return Brightness.of(chain.night(), dimming.percent(), dimming.lamp(lamp));
  }
}
