package dev.doublet.failure;

import dev.doublet.colour.Channel;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.HeadType;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * One thing that fails on a signal, as a function from how the signal stands. Heads are counted
 * from the top.
 */
public sealed interface Failure {

  /** Its kind. */
  Fault kind();

  /** What it makes of a signal. */
  Condition of(Condition before);

  /** True when one signal can have both: they need not take it to be built in two ways. */
  default boolean goesWith(Failure other) {
    return true;
  }

  /** One lamp dark. */
  record LampOut(int head, HeadType make, int lamp) implements Failure {
    @Override
    public Fault kind() {
      return Fault.LAMP_OUT;
    }

    @Override
    public Condition of(Condition before) {
      return before.with(head, h -> h.dark(make, l -> l == lamp));
    }

    /** Where a rulebook is judged alone, a head may be of several makes. */
    @Override
    public boolean goesWith(Failure other) {
      return other instanceof FlasherStuck flasher
          ? flasher.goesWith(this)
          : !(other instanceof LampOut o) || o.head != head || o.make == make;
    }
  }

  /** One die dead in a lamp that mixes its colour. */
  record DieOut(int head, HeadType make, int lamp, Channel die, Dies dies) implements Failure {
    @Override
    public Fault kind() {
      return Fault.DIE_OUT;
    }

    @Override
    public Condition of(Condition before) {
      return before.with(head, h -> h.dull(make, lamp, die, dies));
    }

    /** Signals built alike may hang on chains of several kinds of LED, but each on one. */
    @Override
    public boolean goesWith(Failure other) {
      return !(other instanceof DieOut o) || o.dies.goesWith(dies);
    }
  }

  /**
   * The flasher of one head stuck, or that of all which flash alike.
   *
   * @param rhythm the rhythm that stands still
   * @param makes the makes of those heads of which some lamps alone are in that rhythm
   */
  record FlasherStuck(Set<Integer> heads, String rhythm, Map<Integer, HeadType> makes, boolean on)
      implements Failure {
    @Override
    public Fault kind() {
      return Fault.FLASHER_STUCK;
    }

    @Override
    public Condition of(Condition before) {
      Condition after = before;
      for (int head : heads) {
        after =
            after.with(
                head,
                h -> makes.containsKey(head) ? h.stuck(makes.get(head), rhythm, on) : h.stuck(on));
      }
      return after;
    }

    /** A head has one flasher, of its own or in common. */
    @Override
    public boolean goesWith(Failure other) {
      if (other instanceof LampOut o) {
        return makes.getOrDefault(o.head, o.make) == o.make;
      }
      return !(other instanceof FlasherStuck o) || heads.stream().noneMatch(o.heads::contains);
    }
  }

  /** One plate missing. */
  record PlateLost(String plate) implements Failure {
    @Override
    public Fault kind() {
      return Fault.PLATE_LOST;
    }

    @Override
    public Condition of(Condition before) {
      return before.without(plate);
    }
  }

  /**
   * The chain broken before one place: what hangs there and behind is dark.
   *
   * @param place the place, an LED or a chip, counted from the signal's first
   * @param places how many the signal has
   * @param dark the lamps that are dark, counted in chain order
   */
  record ChainBroken(
      List<HeadType> makes, List<Integer> wired, int place, int places, Set<Integer> dark)
      implements Failure {
    @Override
    public Fault kind() {
      return Fault.CHAIN_BROKEN;
    }

    @Override
    public Condition of(Condition before) {
      return without(before, makes, wired, dark);
    }
  }

  /**
   * A chip dead, and with it the lamps at its outputs.
   *
   * @param place the chip, counted from the signal's first place of the chain
   * @param dark its lamps, counted in chain order
   */
  record ChipOut(List<HeadType> makes, List<Integer> wired, int place, Set<Integer> dark)
      implements Failure {
    @Override
    public Fault kind() {
      return Fault.LAMP_OUT;
    }

    @Override
    public Condition of(Condition before) {
      return without(before, makes, wired, dark);
    }
  }

  private static Condition without(
      Condition before, List<HeadType> makes, List<Integer> wired, Set<Integer> dark) {
    Condition after = before;
    int passed = 0;
    for (int head : wired) {
      int first = passed;
      after = after.with(head, h -> h.dark(makes.get(head), lamp -> dark.contains(first + lamp)));
      passed += makes.get(head).lamps().size();
    }
    return after;
  }

  /** One lamp lit that should be dark, in a colour that it shows at other times. */
  record LampStuck(int head, HeadType make, int lamp, String colour) implements Failure {
    @Override
    public Fault kind() {
      return Fault.LAMP_STUCK;
    }

    @Override
    public Condition of(Condition before) {
      return before.with(head, h -> h.lit(make, lamp, colour));
    }
  }

  /** The vane before a lamp still where it last stood, so that the lamp shines in that colour. */
  record VaneStuck(int head, HeadType make, int lamp, String colour) implements Failure {
    @Override
    public Fault kind() {
      return Fault.VANE_STUCK;
    }

    @Override
    public Condition of(Condition before) {
      return before.with(head, h -> h.coloured(make, lamp, colour));
    }
  }

  /** An arm in another position than it should be: fallen, or still where it last stood. */
  record ArmElsewhere(int head, HeadType make, String position) implements Failure {
    @Override
    public Fault kind() {
      return position.equals(make.positions().get(0)) ? Fault.ARM_FALLEN : Fault.ARM_STUCK;
    }

    @Override
    public Condition of(Condition before) {
      return before.with(head, h -> Head.whole(Display.steady(position)));
    }

    /** An arm whose lamp is out is seen by day alone. */
    @Override
    public boolean goesWith(Failure other) {
      return !(other instanceof LampOut o) || o.head != head;
    }
  }

  /** One die of an LED lit that should be dark, or less bright. */
  record DieStuck(int head, HeadType make, int lamp, Dies.Stuck die, Dies dies) implements Failure {
    @Override
    public Fault kind() {
      return Fault.DIE_STUCK;
    }

    @Override
    public Condition of(Condition before) {
      return before.with(head, h -> h.mixed(make, lamp, die.shines()));
    }
  }
}
