package dev.doublet.cells;

/**
 * Counts steps and says when they are used up. A step is one row looked at in one box, or as much
 * work of another kind.
 */
final class StepBudget {
  private final long limit;
  private long spent;
  private boolean refused;

  /** Allows {@code limit} steps. */
  StepBudget(long limit) {
    this.limit = limit;
  }

  /** Takes steps before they are done; once it has refused some, it refuses all. */
  boolean spend(long steps) {
    refused |= steps > limit - spent;
    spent += refused ? 0 : steps;
    return !refused;
  }

  /** The steps taken. */
  long spent() {
    return spent;
  }

  /** Tells whether steps were refused, so that the work is not complete. */
  boolean ranOut() {
    return refused;
  }
}
