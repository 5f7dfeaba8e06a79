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
      return Optional.of(new Die(stuck.dies().name()));
    }
    if (!hazard.dark().isEmpty()) {
      return Optional.of(new Dark(hazard.dark()));
    }
    if (failure instanceof Failure.VaneStuck stuck) {
      return Optional.of(new Vane(stuck.make().name()));
    }
    if (failure instanceof Failure.ArmElsewhere arm && failure.kind() == Fault.ARM_STUCK) {
      return Optional.of(new Arm(arm.make().name()));
    }
    return failure instanceof Failure.LampStuck
        ? Optional.of(new Lamp(hazard.site().crew().form().name()))
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

  /** A form on which a lamp may stay lit. */
  record Lamp(String form) implements Cause {
    @Override
    public String part() {
      return form;
    }

    @Override
    public String message(Hazard first) {
      return Words.say("on form %s, a lamp that stays lit permits more than was meant", form);
    }

    @Override
    public String label() {
      return "one that it changes";
    }

    @Override
    public String reason() {
      return "a stray feed or a welded contact lights a lamp that should be dark; it is rare, and railways cut lamp circuits at both ends (common practice)";
    }

    @Override
    public Optional<String> order(Rulebook book) {
      return Optional.empty();
    }
  }

  /** A make of head whose vane may jam. */
  record Vane(String make) implements Cause {
    @Override
    public String part() {
      return make;
    }

    @Override
    public String message(Hazard first) {
      return Words.say("a vane of head %s that jams permits more than was meant", make);
    }

    @Override
    public String label() {
      return "shown by a vane";
    }

    @Override
    public String reason() {
      return "a vane that stays where it stood shows the aspect before; it is rare, and railways prove where it stands (common practice)";
    }

    @Override
    public Optional<String> order(Rulebook book) {
      return Optional.of("show what is most restrictive with lamps that need no vane");
    }
  }

  /** A make of arm that may jam. */
  record Arm(String make) implements Cause {
    @Override
    public String part() {
      return make;
    }

    @Override
    public String message(Hazard first) {
      return Words.say("an arm %s that jams permits more than was meant", make);
    }

    @Override
    public String label() {
      return "shown by an arm";
    }

    @Override
    public String reason() {
      return "an arm that stays where it stood, in snow or with a bent rod, shows the aspect before; railways prove where it stands, or repeat it to the signalman (common practice)";
    }

    @Override
    public Optional<String> order(Rulebook book) {
      return Optional.empty();
    }
  }

  /** A kind of LED of which a die may stay lit. */
  record Die(String led) implements Cause {
    @Override
    public String part() {
      return led;
    }

    @Override
    public String message(Hazard first) {
      return Words.say(
          "a die of an LED of kind \"%s\" that stays lit permits more than was meant", led);
    }

    @Override
    public String label() {
      return "shown by such LEDs";
    }

    @Override
    public String reason() {
      return "only a faulty chip keeps a die lit, which is rare (common practice)";
    }

    @Override
    public Optional<String> order(Rulebook book) {
      return Optional.of("give each colour an LED of its own, which has no other die");
    }
  }
}
