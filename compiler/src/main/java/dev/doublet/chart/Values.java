package dev.doublet.chart;

import java.util.ArrayList;
import java.util.List;

/** Numbers in words, none left out. */
final class Values {
  private Values() {}

  /** Sorted numbers, runs drawn together: "1, 6 to 31"; empty for none. */
  static String words(List<Integer> sorted) {
    List<String> runs = new ArrayList<>();
    int from = 0;
    while (from < sorted.size()) {
      int to = from;
      while (to + 1 < sorted.size() && sorted.get(to + 1) == sorted.get(to) + 1) {
        to++;
      }
      runs.add(
          from == to ? sorted.get(from).toString() : sorted.get(from) + " to " + sorted.get(to));
      from = to + 1;
    }
    return String.join(", ", runs);
  }
}
