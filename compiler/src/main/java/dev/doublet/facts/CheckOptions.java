package dev.doublet.facts;

/**
 * What a run asks of the checks.
 *
 * @param notes false to leave out the checks that give only notes
 * @param faults how many things are let fail on a signal at once: 1, or 2 for every pair as well
 * @param quick true to leave out the checks that take long
 */
public record CheckOptions(boolean notes, int faults, boolean quick) {
  /** The most things that are let fail at once. */
  public static final int MOST_FAULTS = 2;

  /** Everything about single faults. */
  public static final CheckOptions ALL = new CheckOptions(true, 1);

  /** Findings alone. */
  public static final CheckOptions FINDINGS = new CheckOptions(false, 1);

  /** All checks there are. */
  public CheckOptions(boolean notes, int faults) {
    this(notes, faults, false);
  }

  /** Refuses other numbers of faults. */
  public CheckOptions {
    if (faults < 1 || faults > MOST_FAULTS) {
      throw new IllegalArgumentException("faults are tried one or two at a time");
    }
  }

  /** The same with or without the checks that take long. */
  public CheckOptions quickly(boolean quickly) {
    return new CheckOptions(notes, faults, quickly);
  }

  /** True when two faults at once are tried too. */
  public boolean pairs() {
    return faults > 1;
  }
}
