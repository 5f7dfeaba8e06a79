package dev.doublet.rulebook;

import dev.doublet.source.Span;

/**
 * A speed that a rulebook names.
 *
 * @param name as the rulebook says it
 * @param rank how it stands to other speeds
 * @param figure the rulebook's figure, in its own unit, or the least of a numeral's; 0 for others
 * @param most the figure again, or the most of a numeral's
 * @param onSight true when the train must also be able to stop short of anything seen
 * @param span where it is declared
 */
public record Speed(String name, Rank rank, int figure, int most, boolean onSight, Span span) {

  /** A speed that is no numeral's. */
  public Speed(String name, Rank rank, int figure, boolean onSight, Span span) {
    this(name, rank, figure, figure, onSight, span);
  }

  /** How a speed stands to others. */
  public enum Rank {
    /** Known by a figure. */
    FIGURE,
    /** The most that the line allows: no other speed is higher. */
    MAXIMUM,
    /** In no known order to any but the maximum, which it is not above ("as instructed"). */
    UNRANKED,
    /** Of a number that a numeral shows, which may be any of some. */
    NUMERAL
  }

  /** Cheap, as permissions are looked up often. */
  @Override
  public int hashCode() {
    return name.hashCode();
  }

  /** What can be compared of it. */
  Pace pace() {
    return new Pace(name, rank, figure, most, onSight);
  }

  /** The same under another name. */
  Speed named(String other) {
    return new Speed(other, rank, figure, most, onSight, span);
  }
}
