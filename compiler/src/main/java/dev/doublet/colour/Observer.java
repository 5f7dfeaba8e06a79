package dev.doublet.colour;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * The CIE 1931 2-degree standard observer: how a spectrum looks. The table runs from 380 to 700 nm
 * every 5 nm and is linear between; beyond 700 nm it goes on by the factor of its last steps, which
 * the far red does closely (halving every 10 nm) and glowing filaments need.
 */
public final class Observer {
  /** Shortest wavelength of the table, in nm. */
  public static final double SHORTEST = 380;

  /** Longest wavelength with a colour of its own, in nm. */
  public static final double LONGEST = 700;

  private static final int STEP = 5;
  private static final int TAIL = 16;
  private static final List<Xyz> TABLE = read();

  private Observer() {}

  private static List<Xyz> read() {
    List<Xyz> table = new ArrayList<>();
    for (List<String> row : Rows.of("observer.csv")) {
      table.add(
          new Xyz(
              Double.parseDouble(row.get(1)),
              Double.parseDouble(row.get(2)),
              Double.parseDouble(row.get(3))));
    }
    Xyz last = table.get(table.size() - 1);
    Xyz earlier = table.get(table.size() - 3);
    double fx = Math.sqrt(last.x() / earlier.x());
    double fy = Math.sqrt(last.y() / earlier.y());
    for (int i = 0; i < TAIL; i++) {
      last = new Xyz(last.x() * fx, last.y() * fy, 0);
      table.add(last);
    }
    return List.copyOf(table);
  }

  /**
   * How light of one wavelength looks.
   *
   * @param nm 380 to 780
   * @throws IllegalArgumentException outside that range
   */
  public static Xyz at(double nm) {
    if (!(nm >= SHORTEST && nm <= SHORTEST + STEP * (TABLE.size() - 1))) {
      throw new IllegalArgumentException("no light of " + nm + " nm is seen");
    }
    double place = (nm - SHORTEST) / STEP;
    int index = Math.min((int) place, TABLE.size() - 2);
    double part = place - index;
    return TABLE.get(index).times(1 - part).plus(TABLE.get(index + 1).times(part));
  }

  /**
   * How a spectrum looks, summed every {@code step} nm over the whole table.
   *
   * @param power its strength at a wavelength in nm
   * @param step 1 for the narrow spectra of LEDs, 5 for smooth ones
   */
  static Xyz look(DoubleUnaryOperator power, int step) {
    Xyz sum = Xyz.DARK;
    double end = SHORTEST + (TABLE.size() - 1) * STEP;
    for (double nm = SHORTEST; nm <= end; nm += step) {
      sum = sum.plus(at(nm).times(power.applyAsDouble(nm)));
    }
    return sum;
  }

  /** The colours of all wavelengths every 5 nm, shortest first. */
  static List<Chromaticity> locus() {
    return TABLE.subList(0, TABLE.size() - TAIL).stream().map(Xyz::chromaticity).toList();
  }
}
