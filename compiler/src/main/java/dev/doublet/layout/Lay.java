package dev.doublet.layout;

import java.util.List;
import java.util.Optional;

/**
 * How a cable lies: where its LEDs are along it, what hangs on it by wires of its own, and by which
 * wires and from which supplies power is led in.
 *
 * @param at metres along the cable from its start to each LED, never less than to the one before;
 *     empty where LEDs are evenly spaced and the last is at its end
 * @param leads wires from the cable to signals, in the order of the cable
 * @param boards what signals are plugged into, in the order of the cable
 * @param feeds those that have wires or a supply of their own, sorted
 */
public record Lay(List<Double> at, List<Lead> leads, List<Board> boards, List<Feed> feeds) {
  /** LEDs evenly spaced, and all feeds without loss from the chain's supply. */
  public static final Lay EVEN = new Lay(List.of(), List.of(), List.of(), List.of());

  /** Copies the lists. */
  public Lay {
    at = List.copyOf(at);
    leads = List.copyOf(leads);
    boards = List.copyOf(boards);
    feeds = List.copyOf(feeds);
  }

  /**
   * Wires from the cable, or a board's socket, to one signal.
   *
   * @param first its first LED, from 0
   * @param leds how many LEDs it has
   * @param wire out and back
   */
  public record Lead(int first, int leds, Cable wire) {}

  /**
   * A board with sockets.
   *
   * @param name as the layout calls it
   * @param sockets how many signals can be plugged in
   * @param metres along the cable from its start
   * @param signals names of those that are
   */
  public record Board(String name, int sockets, double metres, List<String> signals) {

    /** Copies the list. */
    public Board {
      signals = List.copyOf(signals);
    }
  }

  /**
   * A feed of its own sort.
   *
   * @param at the LED where power is led in, from 1; 0 is the cable's start
   * @param wire from the supply, out and back; {@link Cable#UNSAID} for one without loss
   * @param supplyOrNull where it is another than feeds the LEDs before: the wire of its volts is
   *     then cut before this LED, and ground goes through
   */
  public record Feed(int at, Cable wire, Supply supplyOrNull) {

    /** A further supply, which feeds the LEDs from here on. */
    public Optional<Supply> supply() {
      return Optional.ofNullable(supplyOrNull);
    }
  }

  /** A feed with wires or a supply of its own, by its LED. */
  public Optional<Feed> feed(int at) {
    return feeds.stream().filter(f -> f.at() == at).findFirst();
  }
}
