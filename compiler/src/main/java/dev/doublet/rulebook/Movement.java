package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.function.UnaryOperator;

/** What a train may do at one signal: how fast it may come to it, and how fast it may go on. */
public sealed interface Movement {

  /** Come to a stand. */
  record Stop() implements Movement {
    @Override
    public Pace entry() {
      return Pace.NONE;
    }

    @Override
    public Pace onward() {
      return Pace.NONE;
    }

    @Override
    public String words() {
      return "stop";
    }
  }

  /** Come to a stand, then go on at a speed. */
  record StopThen(Speed speed) implements Movement {
    @Override
    public Movement with(UnaryOperator<Speed> speeds) {
      return new StopThen(speeds.apply(speed));
    }

    @Override
    public Pace entry() {
      return Pace.NONE;
    }

    @Override
    public Pace onward() {
      return speed.pace();
    }

    @Override
    public String words() {
      return "stop, then " + speed.name();
    }
  }

  /** Go on at a speed. */
  record Proceed(Speed speed) implements Movement {
    @Override
    public Movement with(UnaryOperator<Speed> speeds) {
      return new Proceed(speeds.apply(speed));
    }

    @Override
    public Pace entry() {
      return speed.pace();
    }

    @Override
    public Pace onward() {
      return speed.pace();
    }

    @Override
    public String words() {
      return speed.name();
    }
  }

  /** The aspect says nothing of it, and so restricts nothing. */
  record Unsaid() implements Movement {
    @Override
    public Pace entry() {
      return Pace.FREE;
    }

    @Override
    public Pace onward() {
      return Pace.FREE;
    }

    @Override
    public String words() {
      return "unsaid";
    }
  }

  /** Pass at up to one speed, and slow down at once to another. */
  record Reducing(Speed from, Speed to) implements Movement {
    @Override
    public Movement with(UnaryOperator<Speed> speeds) {
      return new Reducing(speeds.apply(from), speeds.apply(to));
    }

    @Override
    public Pace entry() {
      return from.pace();
    }

    @Override
    public Pace onward() {
      return to.pace();
    }

    @Override
    public String words() {
      return from.name() + " reducing to " + to.name();
    }
  }

  /** Go on at a speed that is not said. */
  record NotStop() implements Movement {
    @Override
    public Pace entry() {
      return Pace.FREE;
    }

    @Override
    public Pace onward() {
      return Pace.FREE;
    }

    @Override
    public String words() {
      return "not stop";
    }
  }

  /**
   * What the aspect says of it could not be read: it is like nothing else.
   *
   * @param span where it is written, or should be
   */
  record Unread(Span span) implements Movement {
    @Override
    public Pace entry() {
      return onward();
    }

    @Override
    public Pace onward() {
      String place = span.file().name() + " " + span.start();
      return new Pace(place, Speed.Rank.UNRANKED, 0, 0, false);
    }

    @Override
    public String words() {
      return "not known";
    }
  }

  /** How fast a train may come to the signal. */
  Pace entry();

  /** How fast it may go on from there. */
  Pace onward();

  /** The same with other speeds. */
  default Movement with(UnaryOperator<Speed> speeds) {
    return this;
  }

  /** As a rulebook would say it: "stop", "stop, then restricted", "medium". */
  String words();

  /** True when this is known to permit no more than another. */
  default boolean permitsNoMoreThan(Movement other) {
    return entry().atMost(other.entry()) && onward().atMost(other.onward());
  }

  /**
   * True when this is known to permit more than another in some respect: a higher speed, one that
   * is not on sight, or to go on without a stop. Each of two movements may permit more than the
   * other in another respect.
   */
  default boolean permitsMoreThan(Movement other) {
    return entry().exceeds(other.entry()) || onward().exceeds(other.onward());
  }
}
