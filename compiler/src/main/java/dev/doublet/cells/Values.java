package dev.doublet.cells;

import java.util.Arrays;
import java.util.Collection;
import java.util.Locale;

/**
 * An immutable set of values of one variable.
 *
 * <p>A variable of at most 64 values keeps its set as the bits of one long. A larger one keeps the
 * bounds of its runs of neighbouring values, so that a single value, a range, or all but a few
 * values cost a few bytes whatever the size of the variable. Two sets can be combined only if they
 * were made for the same size.
 */
public final class Values {
  private static final int[] NO_BOUNDS = {};

  private final int size;

  /** The members if the size is at most 64, bit x for value x; otherwise 0. */
  private final long bits;

  /** The runs if the size is over 64: first value, value after the last, and so on upwards. */
  private final int[] bounds;

  private Values(int size, long bits, int[] bounds) {
    this.size = size;
    this.bits = bits;
    this.bounds = bounds;
  }

  /** Every value of a variable of {@code size} values: the wildcard. */
  public static Values all(int size) {
    return range(size, 0, size);
  }

  /** The single value {@code value}. */
  public static Values only(int size, int value) {
    return range(size, value, value + 1);
  }

  /** The given values, in any order; repeats count once. */
  public static Values of(int size, int... values) {
    if (size <= Long.SIZE) {
      long bits = 0;
      for (int value : values) {
        bits |= only(size, value).bits;
      }
      return new Values(size, bits, NO_BOUNDS);
    }
    long[] runs = new long[values.length];
    for (int i = 0; i < values.length; i++) {
      check(size, values[i], values[i] + 1);
      runs[i] = run(values[i], values[i] + 1);
    }
    return new Values(size, 0, joined(runs));
  }

  /**
   * The values from {@code from} up to, but not including, {@code to}.
   *
   * @throws IllegalArgumentException unless {@code 0 <= from <= to <= size} and {@code size >= 1}
   */
  public static Values range(int size, int from, int to) {
    check(size, from, to);
    if (size <= Long.SIZE) {
      long bits = from == to ? 0 : -1L >>> (Long.SIZE - (to - from)) << from;
      return new Values(size, bits, NO_BOUNDS);
    }
    return new Values(size, 0, from == to ? NO_BOUNDS : new int[] {from, to});
  }

  /** The values that are in at least one of {@code sets}; quick however many sets there are. */
  public static Values union(int size, Collection<Values> sets) {
    if (size <= Long.SIZE) {
      long bits = 0;
      for (Values set : sets) {
        bits |= set.bits;
      }
      return new Values(size, bits, NO_BOUNDS);
    }
    long[] runs = new long[sets.stream().mapToInt(set -> set.bounds.length / 2).sum()];
    int filled = 0;
    for (Values set : sets) {
      for (int i = 0; i < set.bounds.length; i += 2) {
        runs[filled++] = run(set.bounds[i], set.bounds[i + 1]);
      }
    }
    return new Values(size, 0, joined(runs));
  }

  /** The values whose bits are set, of a variable of at most 64. */
  static Values ofBits(int size, long bits) {
    return new Values(size, bits, NO_BOUNDS);
  }

  /**
   * The values of the given runs, of a variable of more than 64. The runs rise and do not overlap;
   * those that touch are joined.
   */
  static Values ofRuns(int size, int[] runs) {
    int[] bounds = new int[runs.length];
    int filled = 0;
    for (int i = 0; i < runs.length; i += 2) {
      if (filled > 0 && bounds[filled - 1] == runs[i]) {
        filled--;
      } else {
        bounds[filled++] = runs[i];
      }
      bounds[filled++] = runs[i + 1];
    }
    return new Values(size, 0, Arrays.copyOf(bounds, filled));
  }

  /** How many values the variable has, in the set or not. */
  public int size() {
    return size;
  }

  /** Tells whether {@code value} is in the set. */
  public boolean contains(int value) {
    if (value < 0 || value >= size) {
      return false;
    }
    return size <= Long.SIZE ? (bits >>> value & 1) != 0 : touches(value, value + 1);
  }

  /** Tells whether every value of the variable is in the set. */
  public boolean isAll() {
    return size <= Long.SIZE
        ? bits == -1L >>> (Long.SIZE - size)
        : bounds.length == 2 && bounds[0] == 0 && bounds[1] == size;
  }

  /** Tells whether no value is in the set. */
  public boolean isEmpty() {
    return bits == 0 && bounds.length == 0;
  }

  /** Tells whether some value is in both sets. */
  public boolean intersects(Values other) {
    if (size <= Long.SIZE) {
      return (bits & other.bits) != 0;
    }
    // The shorter list is walked and the longer one searched: a box with thousands of runs is
    // asked about thousands of single values.
    int[] few = bounds.length <= other.bounds.length ? bounds : other.bounds;
    Values many = few == bounds ? other : this;
    for (int i = 0; i < few.length; i += 2) {
      if (many.touches(few[i], few[i + 1])) {
        return true;
      }
    }
    return false;
  }

  /** Tells whether every value of {@code other} is in this set. */
  public boolean containsAll(Values other) {
    if (size <= Long.SIZE) {
      return (other.bits & ~bits) == 0;
    }
    if (bounds.length > other.bounds.length) {
      for (int i = 0; i < other.bounds.length; i += 2) {
        int run = runAfter(other.bounds[i]);
        if (run == bounds.length
            || bounds[run] > other.bounds[i]
            || bounds[run + 1] < other.bounds[i + 1]) {
          return false;
        }
      }
      return true;
    }
    int outside = 0;
    for (int i = 0; i < bounds.length; i += 2) {
      if (other.touches(outside, bounds[i])) {
        return false;
      }
      outside = bounds[i + 1];
    }
    return !other.touches(outside, size);
  }

  /** The values in both sets. */
  public Values and(Values other) {
    if (size <= Long.SIZE) {
      return withBits(bits & other.bits);
    }
    if (other.isAll()) {
      return this;
    }
    return isAll() ? other : combined(other, true);
  }

  /** The values in this set that are not in {@code other}. */
  public Values minus(Values other) {
    return size <= Long.SIZE ? withBits(bits & ~other.bits) : combined(other, false);
  }

  /** The values that are not in this set. */
  public Values complement() {
    return all(size).minus(this);
  }

  /**
   * The least value in the set.
   *
   * @throws IllegalStateException if the set is empty
   */
  public int first() {
    if (isEmpty()) {
      throw new IllegalStateException("an empty set has no first value");
    }
    return size <= Long.SIZE ? Long.numberOfTrailingZeros(bits) : bounds[0];
  }

  /** How many values are in the set. */
  public int count() {
    int count = Long.bitCount(bits);
    for (int i = 0; i < bounds.length; i += 2) {
      count += bounds[i + 1] - bounds[i];
    }
    return count;
  }

  /** The runs of neighbouring values: first, one after the last, and so on upwards. */
  int[] runs() {
    if (size > Long.SIZE) {
      return bounds;
    }
    int[] runs = new int[Long.bitCount(bits ^ bits << 1) + 1];
    int filled = 0;
    for (long rest = bits; rest != 0; ) {
      int from = Long.numberOfTrailingZeros(rest);
      int to = from + Long.numberOfTrailingZeros(~(rest >>> from));
      runs[filled++] = from;
      runs[filled++] = to;
      rest = to == Long.SIZE ? 0 : rest >>> to << to;
    }
    return Arrays.copyOf(runs, filled);
  }

  /** The members as bits, for a variable of at most 64 values. */
  long bits() {
    return bits;
  }

  @Override
  public boolean equals(Object object) {
    return object instanceof Values other
        && size == other.size
        && bits == other.bits
        && Arrays.equals(bounds, other.bounds);
  }

  @Override
  public int hashCode() {
    return 31 * (31 * size + Long.hashCode(bits)) + Arrays.hashCode(bounds);
  }

  /** The set in short: {@code -} for the wildcard, otherwise values and ranges as {0, 4..7}. */
  @Override
  public String toString() {
    if (isAll()) {
      return "-";
    }
    StringBuilder text = new StringBuilder("{");
    int[] runs = runs();
    for (int i = 0; i < runs.length; i += 2) {
      text.append(i == 0 ? "" : ", ").append(runs[i]);
      if (runs[i + 1] - runs[i] > 1) {
        text.append("..").append(runs[i + 1] - 1);
      }
    }
    return text.append('}').toString();
  }

  private static void check(int size, int from, int to) {
    if (size < 1 || from < 0 || to < from || to > size) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT, "values %d up to %d do not lie within 0 up to %d", from, to, size));
    }
  }

  /** A run as one long that sorts by its first value. */
  private static long run(int from, int to) {
    return (long) from << Integer.SIZE | to;
  }

  /** Sorts runs and joins those that touch or overlap. */
  private static int[] joined(long[] runs) {
    Arrays.sort(runs);
    int[] bounds = new int[2 * runs.length];
    int filled = 0;
    for (long run : runs) {
      int from = (int) (run >>> Integer.SIZE);
      int to = (int) run;
      if (filled > 0 && bounds[filled - 1] >= from) {
        bounds[filled - 1] = Math.max(bounds[filled - 1], to);
      } else {
        bounds[filled++] = from;
        bounds[filled++] = to;
      }
    }
    return Arrays.copyOf(bounds, filled);
  }

  private Values withBits(long wanted) {
    return wanted == bits ? this : new Values(size, wanted, NO_BOUNDS);
  }

  /** The place in {@link #bounds} of the first run that ends after {@code value}. */
  private int runAfter(int value) {
    int low = 0;
    int high = bounds.length / 2;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (bounds[2 * middle + 1] > value) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return 2 * low;
  }

  /** Tells whether a value from {@code from} up to but not including {@code to} is in the set. */
  private boolean touches(int from, int to) {
    int run = runAfter(from);
    return run < bounds.length && bounds[run] < to;
  }

  /**
   * Walks the bounds of both sets at once, and keeps values of this set.
   *
   * @param inBoth whether those that are in the other set are kept, or those that are not
   */
  private Values combined(Values other, boolean inBoth) {
    int[] mine = bounds;
    int[] theirs = other.bounds;
    int[] kept = new int[mine.length + theirs.length];
    int filled = 0;
    int i = 0;
    int j = 0;
    while (i < mine.length || j < theirs.length) {
      int at =
          j == theirs.length || (i < mine.length && mine[i] <= theirs[j]) ? mine[i] : theirs[j];
      if (i < mine.length && mine[i] == at) {
        i++;
      }
      if (j < theirs.length && theirs[j] == at) {
        j++;
      }
      boolean here = (i & 1) != 0;
      boolean there = (j & 1) != 0;
      boolean keep = here && there == inBoth;
      if (keep != ((filled & 1) != 0)) {
        kept[filled++] = at;
      }
    }
    return new Values(size, 0, Arrays.copyOf(kept, filled));
  }
}
