package dev.doublet.failure;

import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Permission.Place;
import java.util.Set;

/** How an aspect that a crew reads stands to the one that was meant. */
public enum Verdict {
  /** It is known to permit more: here or at the next signal in some respect, or altogether. */
  MORE,
  /** Nobody can say which permits more, or only the second signal is concerned. */
  UNKNOWN,
  /** It is known to permit no more. */
  NO_MORE;

  /**
   * Weighs a reading. That it asks less at one signal does not make up for more at another: a train
   * that comes too fast here is not slowed down by what it was told of the next signal.
   */
  public static Verdict of(Permission read, Permission meant) {
    if (read.atLeastAsRestrictiveAs(meant)) {
      return NO_MORE;
    }
    Set<Place> more = read.permitsMoreThan(meant);
    boolean soon = more.contains(Place.HERE) || more.contains(Place.NEXT);
    return soon || meant.atLeastAsRestrictiveAs(read) ? MORE : UNKNOWN;
  }
}
