package dev.doublet.rulebook;

/** What a train may do at one signal. */
public sealed interface Movement {

  /** Come to a stand. */
  record Stop() implements Movement {}

  /** Come to a stand, then go on at a speed. */
  record StopThen(Speed speed) implements Movement {}

  /** Go on at a speed. */
  record Proceed(Speed speed) implements Movement {}

  /** The aspect says nothing of it. */
  record Unsaid() implements Movement {}

  /**
   * True when this is known to permit no more than another; {@code Unsaid} is known only to itself.
   */
  default boolean permitsNoMoreThan(Movement other) {
    if (this instanceof Stop || equals(other)) {
      return true;
    }
    if (this instanceof StopThen mine) {
      return other instanceof StopThen theirs && mine.speed().atMost(theirs.speed())
          || other instanceof Proceed free && mine.speed().atMost(free.speed());
    }
    return this instanceof Proceed mine
        && other instanceof Proceed theirs
        && mine.speed().atMost(theirs.speed());
  }

  /** As a rulebook would say it: "stop", "stop, then restricted", "medium". */
  default String words() {
    if (this instanceof StopThen then) {
      return "stop, then " + then.speed().name();
    }
    if (this instanceof Proceed proceed) {
      return proceed.speed().name();
    }
    return this instanceof Stop ? "stop" : "nothing said";
  }

  /** True when the train must be able to stop short of anything it sees. */
  default boolean onSight() {
    return this instanceof Proceed proceed && proceed.speed().onSight()
        || this instanceof StopThen then && then.speed().onSight();
  }
}
