package dev.doublet.power;

import java.util.List;

/**
 * A two-wire line solved without any of the reasoning of {@link Flow}: Kirchhoff's current law at
 * every place as one matrix, by elimination. Fed places are held at 0.
 *
 * @param drops volts lost at each place, from 0
 * @param pieces amperes in each piece of line, away from its start
 * @param led amperes led in at each feed
 */
record Kirchhoff(double[] drops, double[] pieces, double[] led) {

  /**
   * Solves a line.
   *
   * @param loads amperes drawn at each place, from 0
   * @param ohms of one piece of line, both wires
   * @param feeds places that are fed, at least one
   */
  static Kirchhoff solve(double[] loads, double ohms, List<Integer> feeds) {
    int size = loads.length;
    double[][] rows = new double[size][size + 1];
    for (int place = 0; place < size; place++) {
      if (feeds.contains(place)) {
        rows[place][place] = 1;
        continue;
      }
      for (int beside : new int[] {place - 1, place + 1}) {
        if (beside >= 0 && beside < size) {
          rows[place][place] += 1 / ohms;
          rows[place][beside] -= 1 / ohms;
        }
      }
      rows[place][size] = loads[place];
    }
    double[] drops = eliminate(rows);
    double[] pieces = new double[size - 1];
    for (int piece = 0; piece < pieces.length; piece++) {
      pieces[piece] = (drops[piece + 1] - drops[piece]) / ohms;
    }
    double[] led = new double[feeds.size()];
    for (int i = 0; i < led.length; i++) {
      int feed = feeds.get(i);
      led[i] =
          loads[feed]
              + (feed < pieces.length ? pieces[feed] : 0)
              - (feed > 0 ? pieces[feed - 1] : 0);
    }
    return new Kirchhoff(drops, pieces, led);
  }

  /** The unknowns of as many equations, each with its right side last. */
  private static double[] eliminate(double[][] rows) {
    int size = rows.length;
    for (int column = 0; column < size; column++) {
      int pivot = column;
      for (int row = column; row < size; row++) {
        pivot = Math.abs(rows[row][column]) > Math.abs(rows[pivot][column]) ? row : pivot;
      }
      double[] swapped = rows[column];
      rows[column] = rows[pivot];
      rows[pivot] = swapped;
      for (int row = 0; row < size; row++) {
        double times = row == column ? 0 : rows[row][column] / rows[column][column];
        for (int i = column; times != 0 && i <= size; i++) {
          rows[row][i] -= times * rows[column][i];
        }
      }
    }
    double[] unknowns = new double[size];
    for (int i = 0; i < size; i++) {
      unknowns[i] = rows[i][size] / rows[i][i];
    }
    return unknowns;
  }
}
