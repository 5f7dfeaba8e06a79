package dev.doublet.oracle;

import java.util.ArrayList;
import java.util.List;

/** Choices made by numbers thrown beforehand; nought always chooses the least. */
final class Dice {
  private final List<Integer> thrown;
  private int used;

  Dice(List<Integer> thrown) {
    this.thrown = thrown;
  }

  /** A number between two, both included; the least when nothing is left. */
  int from(int least, int most) {
    int number = used < thrown.size() ? thrown.get(used++) : 0;
    return least + number % (most - least + 1);
  }

  /** True once in so many times. */
  boolean onceIn(int times) {
    return from(1, times) == times;
  }

  /** One of a list. */
  <T> T oneOf(List<T> list) {
    return list.get(from(0, list.size() - 1));
  }

  /** So many of a list at least, in the list's order. */
  <T> List<T> someOf(List<T> list, int least) {
    List<T> some = new ArrayList<>();
    for (int i = 0; i < list.size(); i++) {
      boolean needed = list.size() - i <= least - some.size();
      if (onceIn(2) || needed) {
        some.add(list.get(i));
      }
    }
    return some;
  }
}
