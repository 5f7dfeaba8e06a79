package dev.doublet.layout;

import dev.doublet.bus.Accessory;
import dev.doublet.bus.EventId;
import dev.doublet.bus.Packet;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.IntStream;

/**
 * A way of commanding units: what is sent to call up one of their states, and what they make of it.
 */
public sealed interface Way {

  /** As a layout says it. */
  String word();

  /** How many accessory addresses a unit takes; 0 where there are none. */
  default int addresses() {
    return 0;
  }

  /** How many values its commands can carry, numbered from 0; 0 where they are not numbered. */
  default int values(Bus bus) {
    return 0;
  }

  /**
   * Milliseconds without a packet that a unit waits before it does what its packets say, so that it
   * passes through no other aspect between them; 0 where one packet says all.
   */
  default int settle() {
    return 0;
  }

  /** What is sent to a unit, one after the other, so that it shows the state of an answer. */
  List<Message> calling(Unit unit, Answer answer);

  /** A way of DCC basic packets, which set one address at a time. */
  sealed interface Switched extends Way {
    /**
     * What the addresses of a unit say once one of them has been set.
     *
     * @param normal how each was set last, first to last: true for normal, null before the first
     *     time
     * @param last the index of the one that was set last
     * @return the value received; empty while addresses that count have not been set
     */
    OptionalInt value(Boolean[] normal, int last);
  }

  /** A DCC extended accessory packet: one address, and the value is the aspect's number. */
  record AspectNumber() implements Way {
    /** As a layout says it. */
    public static final String WORD = "aspect-number";

    @Override
    public String word() {
      return WORD;
    }

    @Override
    public int addresses() {
      return 1;
    }

    @Override
    public int values(Bus bus) {
      return 1 << bus.aspectBits();
    }

    @Override
    public List<Message> calling(Unit unit, Answer answer) {
      int address = unit.command().addresses().get(0);
      int binary = Accessory.binary(address, unit.command().bus().firstDecoder());
      return List.of(
          new Message.ToAccessory(address, new Packet.ExtendedAccessory(binary, answer.value())));
    }
  }

  /**
   * Several DCC basic addresses, whose two states together are a number.
   *
   * @param addresses how many, 1 to 4
   * @param oneIsNormal true when an address in its normal state counts 1
   * @param lowFirst true when the first address is the low bit
   * @param settle milliseconds without a packet before it does what they say; 0 for at once
   */
  record BinaryCoded(int addresses, boolean oneIsNormal, boolean lowFirst, int settle)
      implements Switched {
    /** As a layout says it. */
    public static final String WORD = "binary-coded";

    /**
     * A command station sends the packets of one number some 10 to 50 ms apart and repeats them
     * among those for trains, and a third of a second is no delay to somebody who sets a signal.
     */
    public static final int USUAL_SETTLE = 300;

    /** The longest that a unit waits; tables are proved with half a second between commands. */
    public static final int LONGEST_SETTLE = 400;

    /** Refuses to wait longer than is proved. */
    public BinaryCoded {
      if (settle < 0 || settle > LONGEST_SETTLE) {
        throw new IllegalArgumentException("settles after " + settle + " ms");
      }
    }

    @Override
    public String word() {
      return WORD;
    }

    @Override
    public int values(Bus bus) {
      return 1 << addresses;
    }

    @Override
    public List<Message> calling(Unit unit, Answer answer) {
      return IntStream.range(0, addresses)
          .mapToObj(i -> basic(unit, i, bit(answer.value(), i) == oneIsNormal))
          .toList();
    }

    @Override
    public OptionalInt value(Boolean[] normal, int last) {
      int value = 0;
      for (int i = 0; i < addresses; i++) {
        Boolean set = normal[lowFirst ? addresses - 1 - i : i];
        if (set == null) {
          return OptionalInt.empty();
        }
        value = 2 * value + (set == oneIsNormal ? 1 : 0);
      }
      return OptionalInt.of(value);
    }

    private boolean bit(int value, int address) {
      return (value >> (lowFirst ? address : addresses - 1 - address) & 1) == 1;
    }
  }

  /**
   * Each side of each of several DCC basic addresses calls up one aspect.
   *
   * @param addresses how many
   */
  record OnePerOutput(int addresses) implements Switched {
    /** As a layout says it. */
    public static final String WORD = "one-per-output";

    @Override
    public String word() {
      return WORD;
    }

    @Override
    public int values(Bus bus) {
      return 2 * addresses;
    }

    @Override
    public List<Message> calling(Unit unit, Answer answer) {
      return List.of(basic(unit, answer.value() / 2, answer.value() % 2 == 1));
    }

    @Override
    public OptionalInt value(Boolean[] normal, int last) {
      return OptionalInt.of(2 * last + (normal[last] ? 1 : 0));
    }
  }

  /**
   * An MQTT topic, whose payload is an aspect's name or number.
   *
   * @param byName true when payloads are names, false when they are numbers
   */
  record Topic(boolean byName) implements Way {
    /** As a layout says it. */
    public static final String WORD = "topic";

    @Override
    public String word() {
      return WORD;
    }

    @Override
    public List<Message> calling(Unit unit, Answer answer) {
      String payload =
          byName
              ? unit.kind().states().get(answer.state()).name()
              : Integer.toString(answer.value());
      return List.of(new Message.ToTopic(unit.command().topic(), payload));
    }
  }

  /** An OpenLCB event for each aspect. */
  record Event() implements Way {
    /** As a layout says it. */
    public static final String WORD = "event";

    @Override
    public String word() {
      return WORD;
    }

    @Override
    public List<Message> calling(Unit unit, Answer answer) {
      return List.of(new Message.ToAll(new EventId(unit.command().events().get(answer.state()))));
    }
  }

  private static Message basic(Unit unit, int index, boolean normal) {
    int address = unit.command().addresses().get(index);
    int binary = Accessory.binary(address, unit.command().bus().firstDecoder());
    return new Message.ToAccessory(
        address, new Packet.BasicAccessory(binary, normal ? 1 : 0, true));
  }
}
