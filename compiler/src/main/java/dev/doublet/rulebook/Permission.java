package dev.doublet.rulebook;

/**
 * What an aspect allows a train to do here, at the next signal and at the second.
 *
 * @param here at this signal
 * @param next at the next signal
 * @param second at the signal after the next
 */
public record Permission(Movement here, Movement next, Movement second) {

  /**
   * True when this is known to permit no more than another: no more here and no more at the signals
   * ahead. A stop here permits nothing ahead either. A movement on sight that says nothing of the
   * next signal promises nothing there. What is unsaid about the second signal restricts nothing.
   */
  public boolean atLeastAsRestrictiveAs(Permission other) {
    if (here instanceof Movement.Stop) {
      return true;
    }
    return here.permitsNoMoreThan(other.here)
        && promise().permitsNoMoreThan(other.promise())
        && secondPermitsNoMoreThan(other);
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

  /** As the language says it: "normal then limited", "stop, then restricted". */
  public String words() {
    StringBuilder words = new StringBuilder(here.words());
    if (!(next instanceof Movement.Unsaid)) {
      words.append(" then ").append(next.words());
    }
    if (!(second instanceof Movement.Unsaid)) {
      words.append(" then ").append(second.words()).append(" at the second signal");
    }
    return words.toString();
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

  private Movement promise() {
    boolean promisesNothing = next instanceof Movement.Unsaid && here.onSight();
    return promisesNothing ? new Movement.Stop() : next;
  }

  private boolean secondPermitsNoMoreThan(Permission other) {
    if (other.second instanceof Movement.Unsaid || promise() instanceof Movement.Stop) {
      return true;
    }
    return second.permitsNoMoreThan(other.second);
  }
}
