package dev.doublet.check.failure;

import dev.doublet.diagnostic.Words;
import dev.doublet.facts.FaultWords;
import dev.doublet.failure.Failure;
import dev.doublet.failure.Hazard;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Rulebook;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** One cause of many hazards, which is told once with all that comes of it. */
sealed interface Cause {

  /** The cause of a hazard that is not told by itself; empty for any other. */
  static Optional<Cause> of(Hazard hazard) {
    Failure failure = hazard.first().trial().failures().get(0);
    if (failure instanceof Failure.DieStuck stuck) {
      return Optional.of(Part.die(stuck.dies().name()));
    }
    if (!hazard.dark().isEmpty()) {
      return Optional.of(new Dark(hazard.dark()));
    }
    if (failure instanceof Failure.VaneStuck stuck) {
      return Optional.of(Part.vane(stuck.make().name()));
    }
    if (failure instanceof Failure.ArmElsewhere arm && failure.kind() == Fault.ARM_STUCK) {
      return Optional.of(Part.arm(arm.make().name()));
    }
    return failure instanceof Failure.LampStuck
        ? Optional.of(Part.lamp(hazard.site().crew().form().name()))
        : Optional.empty();
  }

  /** The aspects that it concerns. */
  default Set<Aspect> aspects(List<Hazard> hazards) {
    return hazards.stream()
        .map(h -> h.first().meant())
        .collect(Collectors.toCollection(LinkedHashSet::new));
  }

  /** What is wrong. */
  String message(Hazard first);

  /** The form, make of head or kind of LED that it lies in; empty for a signal. */
  default String part() {
    return "";
  }

  /** What is underlined. */
  String label();

  /** Why it matters. */
  String reason();

  /** What to do; empty when that is only for what would mend each of its hazards. */
  Optional<String> order(Rulebook book);

  /** A signal on which nothing can be made out, and which has several most restrictive aspects. */
  record Dark(Set<Aspect> aspects) implements Cause {
    @Override
    public Set<Aspect> aspects(List<Hazard> hazards) {
      return aspects;
    }

    @Override
    public String message(Hazard first) {
      return Words.say(
          "on %s, nothing tells whether a dark signal is %s",
          FaultWords.site(first.site()),
          aspects.stream().map(a -> "\"" + a.name() + "\"").collect(Collectors.joining(" or ")));
    }

    @Override
    public String label() {
      return "one that it shows";
    }

    @Override
    public String reason() {
      return "a signal of which nothing can be made out is its most restrictive aspect (common practice), and here several are";
    }

    @Override
    public Optional<String> order(Rulebook book) {
      return Optional.of(
          book.mostRestrictive()
              .map(a -> "show \"" + a.name() + "\" on it too")
              .orElse("declare an aspect that permits less than each of them"));
    }
  }

  /**
   * A form, a make of head or a kind of LED, of which something may stay as it was.
   *
   * @param part its name
   * @param message what is wrong
   */
  record Part(String part, String message, String label, String reason, Optional<String> mend)
      implements Cause {

    /** A form on which a lamp may stay lit. */
    static Part lamp(String form) {
      return new Part(
          form,
          Words.say("on form %s, a lamp that stays lit permits more than was meant", form),
          "one that it changes",
          "a stray feed or a welded contact lights a lamp that should be dark; it is rare, and railways cut lamp circuits at both ends (common practice)",
          Optional.empty());
    }

    /** A make of head whose vane may jam. */
    static Part vane(String make) {
      return new Part(
          make,
          Words.say("a vane of head %s that jams permits more than was meant", make),
          "shown by a vane",
          "a vane that stays where it stood shows the aspect before; it is rare, and railways prove where it stands (common practice)",
          Optional.of("show what is most restrictive with lamps that need no vane"));
    }

    /** A make of arm that may jam. */
    static Part arm(String make) {
      return new Part(
          make,
          Words.say("an arm %s that jams permits more than was meant", make),
          "shown by an arm",
          "an arm that stays where it stood, in snow or with a bent rod, shows the aspect before; railways prove where it stands, or repeat it to the signalman (common practice)",
          Optional.empty());
    }

    /** A kind of LED of which a die may stay lit. */
    static Part die(String led) {
      return new Part(
          led,
          Words.say(
              "a die of an LED of kind \"%s\" that stays lit permits more than was meant", led),
          "shown by such LEDs",
          "only a faulty chip keeps a die lit, which is rare (common practice)",
          Optional.of("give each colour an LED of its own, which has no other die"));
    }

    @Override
    public String message(Hazard first) {
      return message;
    }

    @Override
    public Optional<String> order(Rulebook book) {
      return mend;
    }
  }
}
