package dev.doublet.rulebook;

import java.util.EnumSet;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.UnaryOperator;

/**
 * What an aspect allows a train to do here, at the next signal and at the second.
 *
 * @param here at this signal
 * @param next at the next signal
 * @param atShortDistance true when the next signal is nearer than usual, so that braking must begin
 *     sooner
 * @param second at the signal after the next
 */
public record Permission(Movement here, Movement next, boolean atShortDistance, Movement second) {
  private static final String SHORTLY = " at short distance";

  /** With the next signal at the usual distance. */
  public Permission(Movement here, Movement next, Movement second) {
    this(here, next, false, second);
  }

  /** The signals that a permission speaks of. */
  public enum Place {
    /** The signal that is passed. */
    HERE("here"),
    /** The one ahead of it. */
    NEXT("at the next signal"),
    /** The one after that. */
    SECOND("at the second signal");

    private final String words;

    Place(String words) {
      this.words = words;
    }

    /** In words: "at the next signal". */
    public String words() {
      return words;
    }
  }

  /** What this says of a signal, as a train has to take it. */
  public Movement at(Place place) {
    return switch (place) {
      case HERE -> here;
      case NEXT -> announced();
      case SECOND -> second;
    };
  }

  /**
   * What a train is to be ready for at the next signal. One that is told nothing of it goes on as
   * it does here, and is ready to stop when it is held here or goes on on sight.
   */
  public Movement announced() {
    if (!(next instanceof Movement.Unsaid)) {
      return next;
    }
    if (here.onward().onSight()) {
      return new Movement.Stop();
    }
    if (here instanceof Movement.StopThen then) {
      return new Movement.Proceed(then.speed());
    }
    return here instanceof Movement.Reducing reducing ? new Movement.Proceed(reducing.to()) : here;
  }

  /**
   * True when a train is ready for the next signal however near it stands: it was told so, or goes
   * on on sight, or is held.
   */
  private boolean isReadySoon() {
    return atShortDistance || here.onward().onSight();
  }

  /** True when a train of another has to brake for the next signal sooner than one of this. */
  private boolean brakesLaterThan(Permission other) {
    return !isReadySoon() && other.isReadySoon();
  }

  /**
   * True when this is known to permit no more than another: no more here and no more at the signals
   * ahead, and no later braking for the next. A stop permits nothing at the signals after it. What
   * is unsaid about the second signal restricts nothing. That a shorter distance is the more
   * restrictive one is our choice: no published order of permissions was found.
   */
  public boolean atLeastAsRestrictiveAs(Permission other) {
    return here instanceof Movement.Stop
        || here.permitsNoMoreThan(other.here)
            && announced().permitsNoMoreThan(other.announced())
            && !brakesLaterThan(other)
            && (announced() instanceof Movement.Stop || second.permitsNoMoreThan(other.second));
  }

  /**
   * The signals at which this is known to permit more than another in some respect, whatever it
   * permits at the others.
   */
  public Set<Place> permitsMoreThan(Permission other) {
    Set<Place> more = EnumSet.noneOf(Place.class);
    for (Place place : Place.values()) {
      boolean later = place == Place.NEXT && other.atShortDistance && brakesLaterThan(other);
      if (later || at(place).permitsMoreThan(other.at(place))) {
        more.add(place);
      }
      if (at(place) instanceof Movement.Stop) {
        break;
      }
    }
    return more;
  }

  /** The unranked speeds that keep this from being held against another, by name. */
  public SortedSet<String> unrankedAgainst(Permission other) {
    SortedSet<String> unranked = new TreeSet<>();
    for (Place place : Place.values()) {
      Movement mine = at(place);
      Movement theirs = other.at(place);
      unranked.addAll(mine.entry().unrankedAgainst(theirs.entry()));
      unranked.addAll(mine.onward().unrankedAgainst(theirs.onward()));
    }
    return unranked;
  }

  /** How this stands to another. */
  public Standing against(Permission other) {
    boolean noMore = atLeastAsRestrictiveAs(other);
    boolean noLess = other.atLeastAsRestrictiveAs(this);
    if (noMore && noLess) {
      return Standing.SAME;
    }
    return noMore
        ? Standing.MORE_RESTRICTIVE
        : noLess ? Standing.LESS_RESTRICTIVE : Standing.UNKNOWN;
  }

  /** The same with other speeds. */
  Permission with(UnaryOperator<Speed> speeds) {
    return new Permission(
        here.with(speeds), next.with(speeds), atShortDistance, second.with(speeds));
  }

  /** False when part of it could not be read. */
  boolean isRead() {
    return !(here instanceof Movement.Unread
        || next instanceof Movement.Unread
        || second instanceof Movement.Unread);
  }

  /** As the language says it: "normal then limited", "stop, then restricted". */
  public String words() {
    StringBuilder words = new StringBuilder(here.words());
    if (atShortDistance || !(next instanceof Movement.Unsaid)) {
      words.append(" then ").append(next.words());
    }
    if (atShortDistance) {
      words.append(SHORTLY);
    }
    if (!(second instanceof Movement.Unsaid)) {
      words.append(" then ").append(second.words()).append(" at the second signal");
    }
    return words.toString();
  }

  /** What this says of a signal, in words: "stop at short distance". */
  public String words(Place place) {
    return at(place).words() + (place == Place.NEXT && atShortDistance ? SHORTLY : "");
  }

  /** How one permission stands to another. */
  public enum Standing {
    /** Each permits no more than the other. */
    SAME("equally restrictive"),
    /** The first permits less. */
    MORE_RESTRICTIVE("more restrictive"),
    /** The first permits more. */
    LESS_RESTRICTIVE("less restrictive"),
    /** Neither is known to permit no more than the other. */
    UNKNOWN("in no known order");

    private final String words;

    Standing(String words) {
      this.words = words;
    }

    /** In words: "less restrictive". */
    public String words() {
      return words;
    }
  }
}
