package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.List;

/**
 * An exception to how imperfect signals are read: the aspect that one is read as on which a light
 * still shows.
 *
 * @param aspect the aspect's name
 * @param looks the colours and figures of which one must show, in whatever rhythm
 * @param alone true when nothing else may be lit
 * @param span where it is written
 */
public record Proviso(String aspect, List<String> looks, boolean alone, Span span) {

  /** Copies the list. */
  public Proviso {
    looks = List.copyOf(looks);
  }

  /** As the language says it: {@code "Slow Approach" where yellow or green shows}. */
  public String words() {
    return '"'
        + aspect
        + "\" where "
        + String.join(" or ", looks)
        + (alone ? " alone" : "")
        + " shows";
  }
}
