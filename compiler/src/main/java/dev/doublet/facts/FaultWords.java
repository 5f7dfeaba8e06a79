package dev.doublet.facts;

import dev.doublet.diagnostic.Words;
import dev.doublet.failure.Failure;
import dev.doublet.failure.Glimpse;
import dev.doublet.failure.Hazard;
import dev.doublet.failure.Remedy;
import dev.doublet.failure.Site;
import dev.doublet.failure.Trial;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** What failed, where, what is then seen, and what would mend it, in words. */
public final class FaultWords {
  private static final String STRANGE = "a light of no known colour";

  private FaultWords() {}

  /** "signal H1 and 5 more like it", "form one-head with the number plate". */
  public static String site(Site site) {
    if (!site.signals().isEmpty()) {
      return "signal " + Words.first(site.signals());
    }
    List<String> plates = site.plates();
    return "form "
        + site.crew().form().name()
        + (plates.isEmpty()
            ? ""
            : " with the " + Words.list(plates) + " " + Words.plural(plates.size(), "plate"));
  }

  /** The kinds of a hazard's faults, in the language's words: "lamp-out". */
  public static String kinds(Hazard hazard) {
    return Words.list(hazard.faults().stream().map(Fault::words).toList());
  }

  /** What failed and how: "the top head is dark and the L plate is missing". */
  public static String failed(Site site, Trial trial) {
    List<Said> all = trial.failures().stream().map(f -> said(site, f)).toList();
    boolean alike = all.stream().map(Said::how).distinct().count() == 1;
    String and = all.stream().anyMatch(Said::isSeveral) ? ", and " : " and ";
    if (alike && all.size() > 1) {
      return all.stream().map(Said::what).collect(Collectors.joining(and))
          + " are "
          + all.get(0).how();
    }
    return all.stream()
        .map(s -> s.what() + (s.isSeveral() ? " are " : " is ") + s.how())
        .collect(Collectors.joining(and));
  }

  /**
   * One failure.
   *
   * @param what "the top head"
   * @param how "dark"
   */
  private record Said(String what, String how) {
    boolean isSeveral() {
      return what.contains(" and ");
    }
  }

  private static Said said(Site site, Failure failure) {
    Form form = site.crew().form();
    if (failure instanceof Failure.LampOut out) {
      return new Said(lamp(form, out.head(), out.make(), out.lamp()), "dark");
    }
    if (failure instanceof Failure.DieOut out) {
      String lamp = lamp(form, out.head(), out.make(), out.lamp());
      return new Said("the " + out.die() + " die in " + lamp, "dead");
    }
    if (failure instanceof Failure.FlasherStuck stuck) {
      String whose =
          stuck.heads().size() == 1
              ? "the flasher of the " + form.places().get(stuck.heads().iterator().next()) + " head"
              : "the common flasher of " + stuck.heads().size() + " heads";
      return new Said(whose, "stuck " + (stuck.on() ? "on" : "off"));
    }
    if (failure instanceof Failure.LampStuck stuck) {
      String lamp = lamp(form, stuck.head(), stuck.make(), stuck.lamp());
      return new Said(lamp, "stuck lit in " + stuck.colour());
    }
    if (failure instanceof Failure.VaneStuck stuck) {
      String place = form.places().get(stuck.head());
      return new Said("the vane of the " + place + " head", "stuck at " + stuck.colour());
    }
    if (failure instanceof Failure.ArmElsewhere arm) {
      String what = "the arm of the " + form.places().get(arm.head()) + " head";
      boolean fallen = arm.kind() == Fault.ARM_FALLEN;
      return new Said(
          what,
          fallen ? "fallen to its safe side, " + arm.position() : "stuck at " + arm.position());
    }
    if (failure instanceof Failure.DieStuck stuck) {
      String lamp = lamp(form, stuck.head(), stuck.make(), stuck.lamp());
      return new Said("the " + stuck.die().die() + " die in " + lamp, "stuck lit");
    }
    if (failure instanceof Failure.PlateLost lost) {
      return new Said("the " + lost.plate() + " plate", "missing");
    }
    if (failure instanceof Failure.ChipOut out) {
      return new Said("the chip at LED " + (out.place() + 1), "dead");
    }
    Failure.ChainBroken broken = (Failure.ChainBroken) failure;
    String leds = Words.say("LED %d of %d and all after it", broken.place() + 1, broken.places());
    String only = site.feeds().get(0).chip().isPresent() ? "its chip" : "its LED";
    return new Said(broken.places() == 1 ? only : leds, "dark");
  }

  private static String lamp(Form form, int head, HeadType make, int lamp) {
    String place = "the " + form.places().get(head) + " head";
    if (make.isArm()) {
      return "the lamp of " + place;
    }
    return make.lamps().size() == 1
        ? place
        : "lamp " + make.lamps().get(lamp).name() + " of " + place;
  }

  /** The picture that is then seen. */
  public static String seen(Trial trial) {
    String heads =
        trial.seen().stream().map(FaultWords::seen).collect(Collectors.joining(" over "));
    return trial.seen().stream().anyMatch(Glimpse::byNight) ? heads + " by night" : heads;
  }

  /** "flashing yellow", "amber at north and centre". */
  public static String seen(Glimpse glimpse) {
    if (glimpse.named()) {
      return glimpse.display().words();
    }
    List<String> parts = new ArrayList<>();
    glimpse
        .remains()
        .lamps()
        .forEach((display, lamps) -> parts.add(display.words() + " at " + Words.list(lamps)));
    if (glimpse.remains().strange()) {
      parts.add(STRANGE);
    }
    return String.join(" with ", parts);
  }

  /** A remedy as an order. */
  public static String order(Remedy remedy) {
    if (remedy instanceof Remedy.OwnLed own) {
      return Words.say(
          "light %s with an LED of its own, not by mixing, so that a dead die leaves it dark",
          Words.list(own.colours()));
    }
    if (remedy instanceof Remedy.TwoLamps two) {
      List<String> shown =
          two.shown().stream().map(s -> s.look() + " at the " + s.place() + " head").toList();
      return Words.say("light %s with two lamps at once (a figure of the head)", Words.list(shown));
    }
    if (remedy instanceof Remedy.OtherRule other) {
      return "if crews are taught so, write: imperfect signals read as " + other.rule().words();
    }
    return "show it as " + Display.over(((Remedy.OtherPicture) remedy).picture());
  }
}
