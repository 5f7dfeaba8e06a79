package dev.doublet.table;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Way;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * What a table holds, free of how it is packed: two models are equal exactly when their tables have
 * the same bytes.
 *
 * @param edition the rulebook's edition, 0 to 65,535
 * @param colours how many colours each palette holds, dark not counted
 * @param buses at most 255
 * @param chains at most 255, their LEDs at most 65,535 together
 * @param rhythms at most 16; a flashing light names one by its place here
 * @param flashing at most 255 with the colours
 * @param kinds at most 128
 * @param units at most 8,192, in the order in which readers number them
 * @param servos at most 255, by their channels
 */
public record TableModel(
    int edition,
    int colours,
    List<Bus> buses,
    List<Chain> chains,
    List<Rhythm> rhythms,
    List<Flash> flashing,
    List<Kind> kinds,
    List<Unit> units,
    List<Servo> servos) {

  /** Copies the lists. */
  public TableModel {
    buses = List.copyOf(buses);
    chains = List.copyOf(chains);
    rhythms = List.copyOf(rhythms);
    flashing = List.copyOf(flashing);
    kinds = List.copyOf(kinds);
    units = List.copyOf(units);
    servos = List.copyOf(servos);
  }

  /** The LED, numbered over all chains, at which a chain begins. */
  public int firstLed(int chain) {
    int led = 0;
    for (Chain before : chains.subList(0, chain)) {
      led += before.leds();
    }
    return led;
  }

  /**
   * A bus.
   *
   * @param speaks what it carries
   * @param aspectBits bits of an extended packet's value, 5 or 8; 0 unless it carries DCC
   * @param firstDecoder the decoder that answers to address 1, 0 or 1; 0 unless it carries DCC
   */
  public record Bus(Speaks speaks, int aspectBits, int firstDecoder) {}

  /**
   * A chain of LEDs.
   *
   * @param leds how many, gaps included
   * @param channels bytes sent for each LED, 1 to 4
   * @param palette the bytes of each colour in the order sent, brightness included, for each level
   *     of brightness on the chain one after the other
   * @param night the same by night; empty when night is as day
   */
  public record Chain(int leds, int channels, List<Integer> palette, List<Integer> night) {
    /** Copies the lists. */
    public Chain {
      palette = List.copyOf(palette);
      night = List.copyOf(night);
    }
  }

  /**
   * A rhythm.
   *
   * @param period milliseconds from one flash to the next, 1 to 65,535
   * @param first milliseconds of the first part of each flash, 1 to 65,535
   */
  public record Rhythm(int period, int first) {}

  /**
   * A colour in a rhythm.
   *
   * @param colour from 1
   * @param rhythm from 0
   * @param darkFirst true when the rhythm's first part is dark and the rest lit, false when the
   *     first part is lit and the rest dark
   */
  public record Flash(int colour, int rhythm, boolean darkFirst) implements Comparable<Flash> {
    private static final Comparator<Flash> ORDER =
        Comparator.comparingInt(Flash::colour)
            .thenComparingInt(Flash::rhythm)
            .thenComparing(Flash::darkFirst);

    @Override
    public int compareTo(Flash other) {
      return ORDER.compare(this, other);
    }
  }

  /**
   * One thing that can be called up.
   *
   * @param number 0 to 255
   * @param lights the light of each LED, or of each channel of each LED: 0 is dark, then the
   *     colours from 1, then the flashing ones
   */
  public record State(int number, List<Integer> lights) {
    /** Copies the list. */
    public State {
      lights = List.copyOf(lights);
    }
  }

  /**
   * How an LED goes from one light to another.
   *
   * @param filament true when it glows as a filament lamp does
   * @param middle the colour that it passes between two others, from 1; 0 when it passes none
   */
  public record Glow(boolean filament, int middle) {}

  /**
   * Some LEDs of a unit side by side.
   *
   * @param first the first of them, from 0
   * @param count how many; 0 for none
   */
  public record Part(int first, int count) {
    /** None. */
    public static final Part NONE = new Part(0, 0);

    /** True when there are any. */
    boolean isAny() {
      return count > 0;
    }

    /** These, others, and all between. */
    Part to(Part other) {
      int begin = Math.min(first, other.first);
      int end = Math.max(first + count, other.first + other.count);
      return new Part(begin, end - begin);
    }

    /** The lights of these LEDs. */
    List<Integer> of(List<Integer> lights) {
      return lights.subList(first, first + count);
    }

    /** The lights of all others. */
    List<Integer> others(List<Integer> lights) {
      List<Integer> others = new ArrayList<>(lights);
      others.subList(first, first + count).clear();
      return others;
    }
  }

  /**
   * All that can be called up on units which look alike.
   *
   * @param leds how many LEDs each state lights, 1 to 255
   * @param states 1 to 127
   * @param glows how each goes from one light to another; empty when all switch at once
   * @param numeral the LEDs that are kept apart from the others, as they show numbers
   */
  public record Look(int leds, List<State> states, List<Glow> glows, Part numeral) {
    /** A look whose pictures are whole. */
    public Look(int leds, List<State> states, List<Glow> glows) {
      this(leds, states, glows, Part.NONE);
    }

    /** The same with a head that shows numbers. */
    Look with(Part head) {
      return new Look(leds, states, glows, head);
    }

    /** Copies the lists. */
    public Look {
      states = List.copyOf(states);
      glows = List.copyOf(glows);
    }

    /** How many lights an LED has: 1, or one for each of its channels. */
    int each() {
      return states.get(0).lights().size() / leds;
    }
  }

  /**
   * What units have in common.
   *
   * @param look what can be called up
   * @param mode how
   * @param bus on which bus
   * @param addresses how many DCC addresses a unit takes, 1 to 32; 0 on other buses
   * @param rest the state before the first command
   * @param oneIsNormal binary-coded: an address in its normal state counts 1
   * @param lowFirst binary-coded: the first address is the low bit
   * @param settling binary-coded: how many steps of 16 ms without a packet are waited for, 0 to 63
   * @param keep a value that calls up nothing changes nothing
   * @param listed for events: a unit's key lists the event of every state
   * @param onApproach dark while no train approaches
   * @param answers what each value calls up, sorted; empty for names and listed events
   * @param names topics by name: CRC-32C of each state's folded name; else empty
   */
  public record Kind(
      Look look,
      Mode mode,
      int bus,
      int addresses,
      int rest,
      boolean oneIsNormal,
      boolean lowFirst,
      int settling,
      boolean keep,
      boolean listed,
      boolean onApproach,
      List<Answer> answers,
      List<Integer> names) {
    /** Copies the lists. */
    public Kind {
      answers = List.copyOf(answers);
      names = List.copyOf(names);
    }
  }

  /** Ways of commanding, in the order in which the format numbers them. */
  public enum Mode {
    /** An extended packet's value. */
    ASPECT_NUMBER(Speaks.DCC, Way.AspectNumber.class),
    /** Bits, one for each basic address. */
    BINARY_CODED(Speaks.DCC, Way.BinaryCoded.class),
    /** The two outputs of each basic address. */
    ONE_PER_OUTPUT(Speaks.DCC, Way.OnePerOutput.class),
    /** A topic's payload. */
    TOPIC(Speaks.MQTT, Way.Topic.class),
    /** An event. */
    EVENT(Speaks.OPENLCB, Way.Event.class);

    private final Speaks speaks;
    private final Class<? extends Way> way;

    Mode(Speaks speaks, Class<? extends Way> way) {
      this.speaks = speaks;
      this.way = way;
    }

    /** The one that a layout's way is written as. */
    static Mode of(Way way) {
      return Arrays.stream(values()).filter(m -> m.way.isInstance(way)).findFirst().orElseThrow();
    }

    /** What a bus speaks that carries it. */
    public Speaks speaks() {
      return speaks;
    }
  }

  /**
   * A servo that moves an arm of a unit.
   *
   * @param channel 0 to 255, another for each
   * @param unit the unit's number
   * @param step microseconds by which its pulse changes in 16 ms, 1 to 255
   * @param pulses microseconds for each state of the unit, 500 to 2,500
   */
  public record Servo(int channel, int unit, int step, List<Integer> pulses) {
    /** Milliseconds of a step. */
    static final int STEP = 16;

    /** Copies the list. */
    public Servo {
      pulses = List.copyOf(pulses);
    }
  }

  /**
   * One signal, or one head commanded by itself.
   *
   * @param kind its place among the kinds
   * @param led its first LED, numbered over all chains
   * @param key each of its binary addresses; or the CRC-32C of its topic; or the event of value 0;
   *     or the event of each state
   * @param level which of its chain's levels of brightness it has, from 0
   */
  public record Unit(int kind, int led, List<Long> key, int level) {
    /** A unit on a chain of one level. */
    public Unit(int kind, int led, List<Long> key) {
      this(kind, led, key, 0);
    }

    /** Copies the list. */
    public Unit {
      key = List.copyOf(key);
    }
  }
}
