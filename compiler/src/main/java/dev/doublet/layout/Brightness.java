package dev.doublet.layout;

import dev.doublet.diagnostic.Words;

/**
 * How strongly LEDs are driven, whatever the colour.
 *
 * @param millionths of full drive, 1 to 1,000,000
 */
public record Brightness(int millionths) implements Comparable<Brightness> {
  private static final int WHOLE = 1_000_000;

  /** Full drive. */
  public static final Brightness FULL = new Brightness(WHOLE);

  /**
   * That of a lamp: so many percent of what its signal has of what its chain has, 1 to 100 each.
   */
  public static Brightness of(int chain, int signal, int lamp) {
    return new Brightness(chain * signal * lamp);
  }

  /** True when nothing is dimmed. */
  public boolean isFull() {
    return millionths == WHOLE;
  }

  /**
   * A drive at this brightness: rounded half up, and never to nothing.
   *
   * @param drive 0 to 255
   */
  public int dimmed(int drive) {
    return drive == 0 ? 0 : (int) Math.max(1, ((long) drive * millionths + WHOLE / 2) / WHOLE);
  }

  /** Percent of full drive. */
  public double percent() {
    return millionths / 10_000.0;
  }

  /** "40 %". */
  public String words() {
    return Words.number(percent()) + " %";
  }

  @Override
  public int compareTo(Brightness other) {
    return Integer.compare(millionths, other.millionths);
  }
}
