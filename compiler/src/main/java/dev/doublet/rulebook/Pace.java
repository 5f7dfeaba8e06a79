package dev.doublet.rulebook;

import dev.doublet.rulebook.Speed.Rank;
import java.util.List;
import java.util.stream.Stream;

/**
 * How fast a train may go, as far as it can be compared.
 *
 * @param name the speed's name, by which speeds in no order are told apart
 * @param rank how it stands to others
 * @param figure in the rulebook's unit, or the least that a numeral shows; 0 for others
 * @param most the figure again, or the most that a numeral shows
 * @param onSight true when the train must also be able to stop short of anything seen
 */
public record Pace(String name, Rank rank, int figure, int most, boolean onSight) {
  /** A train that stands. */
  static final Pace NONE = new Pace("", Rank.FIGURE, 0, 0, true);

  /** A train that nothing restricts: it goes as fast as the line allows. */
  static final Pace FREE = new Pace("", Rank.MAXIMUM, 0, 0, false);

  /** True when this is known to permit no more than another. */
  public boolean atMost(Pace other) {
    return noFasterThan(other) && (onSight || !other.onSight) || equals(other);
  }

  /** True when this is known to permit more than another: it is faster, or not on sight. */
  public boolean exceeds(Pace other) {
    boolean faster = other.noFasterThan(this) && !noFasterThan(other);
    return faster || other.onSight && !onSight;
  }

  /**
   * The names of this and another, as far as they are unranked, when neither is known to be less.
   */
  List<String> unrankedAgainst(Pace other) {
    return atMost(other) || other.atMost(this)
        ? List.of()
        : Stream.of(this, other).filter(p -> !p.isRanked()).map(Pace::name).toList();
  }

  /** True when it stands in a known order to other ranked ones. */
  boolean isRanked() {
    return rank != Rank.UNRANKED;
  }

  private boolean noFasterThan(Pace other) {
    return other.rank == Rank.MAXIMUM
        || isFigure() && other.isFigure() && (most <= other.figure || isSameNumeral(other))
        || equals(NONE);
  }

  private boolean isFigure() {
    return rank == Rank.FIGURE || rank == Rank.NUMERAL;
  }

  /** One letter stands for one number wherever it is compared. */
  private boolean isSameNumeral(Pace other) {
    return rank == Rank.NUMERAL && other.rank == rank && name.equals(other.name);
  }
}
