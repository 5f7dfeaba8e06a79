package dev.doublet.colour;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntToDoubleFunction;

/**
 * A filament's rise or fall in integers, for small controllers: samples of 0 to 255 at even times
 * with straight lines between. At every millisecond it is within 1 of 255 from {@link Filament}.
 *
 * @param shift samples lie {@code 1 << shift} ms apart
 * @param samples levels 0 to 255, from 0 ms on; the last one holds for ever
 */
public record Fade(int shift, List<Integer> samples) {
  /** A lamp that comes on: 65 samples, 8 ms apart. */
  public static final Fade RISE = fitted(3, Filament::rise);

  /** A lamp that goes out: 129 samples, 4 ms apart, since the fall starts steeply. */
  public static final Fade FALL = fitted(2, Filament::fall);

  /** Copies the list. */
  public Fade {
    samples = List.copyOf(samples);
  }

  /**
   * The level so long after the lamp was switched.
   *
   * @param ms 0 or more
   * @return 0 to 255
   */
  public int level(int ms) {
    int index = ms >> shift;
    if (index >= samples.size() - 1) {
      return samples.get(samples.size() - 1);
    }
    int part = ms - (index << shift);
    int from = samples.get(index);
    int to = samples.get(index + 1);
    return (from * ((1 << shift) - part) + to * part + (1 << shift >> 1)) >> shift;
  }

  /**
   * Samples below or above the curve, whichever keep the straight line from the sample before
   * nearer to it: plain rounding would add its error to that of the chord.
   */
  private static Fade fitted(int shift, IntToDoubleFunction curve) {
    int step = 1 << shift;
    List<Integer> samples = new ArrayList<>();
    samples.add((int) Math.round(255 * curve.applyAsDouble(0)));
    for (int start = 0; start < Filament.LONGEST; start += step) {
      int low = (int) Math.floor(255 * curve.applyAsDouble(start + step));
      int from = samples.get(samples.size() - 1);
      double down = farthest(shift, from, low, start, curve);
      double up = farthest(shift, from, low + 1, start, curve);
      samples.add(low < Drive.FULL && up < down ? low + 1 : low);
    }
    return new Fade(shift, samples);
  }

  private static double farthest(
      int shift, int from, int to, int start, IntToDoubleFunction curve) {
    Fade line = new Fade(shift, List.of(from, to));
    double farthest = 0;
    for (int ms = 1; ms <= 1 << shift; ms++) {
      double exact = 255 * curve.applyAsDouble(start + ms);
      farthest = Math.max(farthest, Math.abs(line.level(ms) - exact));
    }
    return farthest;
  }
}
