package dev.doublet.facts;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Kind;
import dev.doublet.layout.State;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * What a binary-coded signal reads while only some bits of a new value have come: on the way from
 * one value to another, and for good when one packet is lost. It does harm when it permits more
 * than both ends, or may.
 */
public final class Coding {
  /** On so many addresses every numbering is tried: 7! with the most restrictive state at 0. */
  private static final int ALL_TRIED = 3;

  private final Kind kind;
  private final int bits;
  private final boolean[][] permitsMore;

  private Coding(Kind kind, int bits) {
    this.kind = kind;
    this.bits = bits;
    int states = kind.states().size();
    this.permitsMore = new boolean[states][states];
    for (int one = 0; one < states; one++) {
      for (int other = 0; other < states; other++) {
        permitsMore[one][other] = permitsMore(kind.states().get(one), kind.states().get(other));
      }
    }
  }

  /** The coding of a kind that is commanded so. */
  public static Coding of(Kind kind) {
    return new Coding(kind, kind.way().addresses());
  }

  /** True when one state may permit more than another; of displays alone nobody knows. */
  private static boolean permitsMore(State one, State other) {
    return one != other
        && (one.aspect().isEmpty()
            || other.aspect().isEmpty()
            || !one.aspect()
                .get()
                .permission()
                .atLeastAsRestrictiveAs(other.aspect().get().permission()));
  }

  /**
   * A change of value that does harm.
   *
   * @param from what was shown
   * @param to what is called up
   * @param through what is read instead of both
   * @param bit the bit that is lost, from 0 for the one that counts least; -1 on the way
   */
  public record Passage(State from, State to, State through, int bit) {}

  /** The values that are answered, each of as many bits as there are addresses. */
  private List<Answer> answers() {
    return kind.answers().stream().filter(a -> a.value() < 1 << bits).toList();
  }

  /** A value that calls up nothing shows the most restrictive state, or the one before. */
  private boolean isHarm(int state, int from, int to) {
    return state >= 0 && permitsMore[state][from] && permitsMore[state][to];
  }

  /** Every change on which a lost packet does harm, by old value, new value and bit. */
  public List<Passage> lost() {
    List<Passage> lost = new ArrayList<>();
    for (Answer from : answers()) {
      for (Answer to : answers()) {
        for (int bit = 0; bit < bits; bit++) {
          boolean sent = ((from.value() ^ to.value()) >> bit & 1) == 1;
          int state = kind.stateFor(to.value() ^ 1 << bit);
          if (sent && isHarm(state, from.state(), to.state())) {
            lost.add(passage(from.state(), to.state(), state, bit));
          }
        }
      }
    }
    return lost;
  }

  private Passage passage(int from, int to, int through, int bit) {
    List<State> states = kind.states();
    return new Passage(states.get(from), states.get(to), states.get(through), bit);
  }

  /**
   * A numbering: which value calls up each state.
   *
   * @param values by index of the state
   * @param losses on how many changes a lost packet does harm
   * @param least no numbering on as many addresses has fewer
   * @param addresses on how many addresses
   */
  public record Numbering(List<Integer> values, int losses, int least, int addresses) {
    /** Copies the list. */
    public Numbering {
      values = List.copyOf(values);
    }
  }

  /**
   * The numbering with the fewest losses that do harm, the most restrictive state at 0. On three
   * addresses and fewer it is the best there is, as all are tried; up to eight states on four
   * addresses have values of an even number of ones, of which any lost bit makes one that calls up
   * nothing; for more it is the best that swaps of two values lead to from two starts.
   *
   * @param addresses how many there may be; enough for all states
   */
  public Numbering fewest(int addresses) {
    int size = 1 << addresses;
    int states = kind.states().size();
    if (states > size) {
      throw new IllegalArgumentException(states + " states on " + addresses + " addresses");
    }
    if (addresses <= ALL_TRIED) {
      Search search = new Search(size);
      search.all(0, new int[states], new boolean[size]);
      return numbering(search.best, search.losses, search.losses, addresses);
    }
    int[] even = IntStream.range(0, size).filter(v -> Integer.bitCount(v) % 2 == 0).toArray();
    int[] odd = IntStream.range(0, size).filter(v -> Integer.bitCount(v) % 2 == 1).toArray();
    int[] evenFirst = IntStream.concat(Arrays.stream(even), Arrays.stream(odd)).toArray();
    int[] best = climbed(inOrder(evenFirst), size);
    if (states > even.length) {
      int[] natural = climbed(inOrder(IntStream.range(0, size).toArray()), size);
      best = losses(natural, size) < losses(best, size) ? natural : best;
    }
    return numbering(best, losses(best, size), least(addresses), addresses);
  }

  /**
   * A bound below which no numbering comes. Values that differ in one bit are neighbours. Where few
   * values call up nothing, so many pairs of neighbours call up something, and so many old values
   * have the lost bit as the wrong neighbour has it; each pair costs at least what is left of these
   * when all that do no harm are among them, and the cheapest pairs may be the neighbours.
   */
  int least(int addresses) {
    int states = kind.states().size();
    int half = 1 << (addresses - 1);
    int unanswered = 2 * half - states;
    int pairs = addresses * (half - unanswered);
    int others = half - unanswered - 1;
    List<Integer> costs = new ArrayList<>();
    for (int one = 0; one < states; one++) {
      for (int other = 0; other < one; other++) {
        costs.add(cost(one, other, others) + cost(other, one, others));
      }
    }
    return costs.stream().sorted().limit(Math.max(pairs, 0)).mapToInt(c -> c).sum();
  }

  /** The least harm that a wrong state does beside the one called up, of so many old ones. */
  private int cost(int wrong, int to, int others) {
    int harmless = 0;
    for (int from = 0; from < kind.states().size(); from++) {
      harmless += from != wrong && from != to && !isHarm(wrong, from, to) ? 1 : 0;
    }
    return Math.max(0, others - harmless);
  }

  private Numbering numbering(int[] values, int losses, int least, int addresses) {
    return new Numbering(Arrays.stream(values).boxed().toList(), losses, least, addresses);
  }

  /** The states at the first of some values, the most restrictive at the first of all. */
  private int[] inOrder(int[] values) {
    int[] of = new int[kind.states().size()];
    int next = 1;
    for (int state = 0; state < of.length; state++) {
      of[state] = state == kind.rest() ? values[0] : values[next++];
    }
    return of;
  }

  /** What swaps lead to, the best one each time, until none makes it better. */
  private int[] climbed(int[] start, int size) {
    int[] best = start;
    int losses = losses(best, size);
    for (boolean better = true; better && losses > 0; ) {
      better = false;
      int[] from = best;
      for (int one = 0; one < from.length; one++) {
        for (int value = 1; one != kind.rest() && value < size; value++) {
          int[] swapped = swapped(from, one, value);
          int now = losses(swapped, size);
          if (now < losses) {
            losses = now;
            best = swapped;
            better = true;
          }
        }
      }
    }
    return best;
  }

  private static int[] swapped(int[] values, int state, int value) {
    int[] swapped = values.clone();
    for (int other = 0; other < swapped.length; other++) {
      if (swapped[other] == value) {
        swapped[other] = values[state];
      }
    }
    swapped[state] = value;
    return swapped;
  }

  private int losses(int[] values, int size) {
    int[] states = new int[size];
    Arrays.fill(states, -1);
    for (int state = 0; state < values.length; state++) {
      states[values[state]] = state;
    }
    int losses = 0;
    for (int to = 0; to < values.length; to++) {
      for (int bit = 1; bit < size; bit <<= 1) {
        int wrong = states[values[to] ^ bit];
        for (int from = 0; from < values.length; from++) {
          boolean sent = ((values[from] ^ values[to]) & bit) != 0;
          losses += sent && isHarm(wrong, from, to) ? 1 : 0;
        }
      }
    }
    return losses;
  }

  /** All numberings, in order of their values. */
  private final class Search {
    private final int size;
    private int[] best;
    private int losses = Integer.MAX_VALUE;

    Search(int size) {
      this.size = size;
    }

    private void all(int state, int[] values, boolean[] taken) {
      if (state == values.length) {
        int now = losses(values, size);
        if (now < losses) {
          losses = now;
          best = values.clone();
        }
        return;
      }
      int from = state == kind.rest() ? 0 : 1;
      int to = state == kind.rest() ? 1 : size;
      for (int value = from; value < to; value++) {
        if (!taken[value]) {
          taken[value] = true;
          values[state] = value;
          all(state + 1, values, taken);
          taken[value] = false;
        }
      }
    }
  }

  /**
   * The order in which to throw the switches of a value by hand, slower than any settling, so that
   * the fewest changes to it do harm on the way.
   *
   * @param to an answered value
   */
  public Throwing throwing(int to) {
    Throwing best = null;
    for (int[] order : orders()) {
      List<Passage> harm = new ArrayList<>();
      for (Answer from : answers()) {
        harm(from, to, order).ifPresent(harm::add);
      }
      if (best == null || harm.size() < best.remaining().size()) {
        best = new Throwing(Arrays.stream(order).boxed().toList(), harm);
      }
    }
    return best;
  }

  /**
   * An order of throwing switches.
   *
   * @param bits those that count, from 0 for the one that counts least, first to last
   * @param remaining the changes that do harm on the way all the same
   */
  public record Throwing(List<Integer> bits, List<Passage> remaining) {
    /** Copies the lists. */
    public Throwing {
      bits = List.copyOf(bits);
      remaining = List.copyOf(remaining);
    }
  }

  /** How many changes to a value do harm on the way in an order of bits. */
  public int harmful(int to, List<Integer> order) {
    int[] bitOrder = order.stream().mapToInt(b -> b).toArray();
    return (int) answers().stream().filter(a -> harm(a, to, bitOrder).isPresent()).count();
  }

  private Optional<Passage> harm(Answer from, int to, int[] order) {
    int value = from.value();
    int end = kind.stateFor(to);
    for (int bit : order) {
      value = value & ~(1 << bit) | to & 1 << bit;
      int shown = kind.stateFor(value);
      if (isHarm(shown, from.state(), end)) {
        return Optional.of(passage(from.state(), end, shown, -1));
      }
    }
    return Optional.empty();
  }

  private List<int[]> orders() {
    List<int[]> orders = new ArrayList<>();
    orders(IntStream.range(0, bits).toArray(), 0, orders);
    return orders;
  }

  /** Every order, the one from the lowest bit on first. */
  private static void orders(int[] order, int from, List<int[]> all) {
    if (from == order.length) {
      all.add(order.clone());
      return;
    }
    for (int i = from; i < order.length; i++) {
      int[] next = order.clone();
      int moved = next[i];
      System.arraycopy(order, from, next, from + 1, i - from);
      next[from] = moved;
      orders(next, from + 1, all);
    }
  }
}
