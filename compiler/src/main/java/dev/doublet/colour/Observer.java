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
   * The colour of light of one wavelength.
   *
   * @param nm 380 to 700
   */
  public static Chromaticity monochromatic(double nm) {
    return at(nm).chromaticity();
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

  /**
   * The colour of an LED die whose spectrum is a bell (Gaussian) curve.
   *
   * @param peak wavelength of its strongest light, in nm
   * @param halfWidth full width at half strength, in nm; 0 for light of one wavelength
   */
  public static Chromaticity bell(double peak, double halfWidth) {
    if (halfWidth == 0) {
      return monochromatic(peak);
    }
    double sharpness = 4 * StrictMath.log(2) / (halfWidth * halfWidth);
    return look(nm -> StrictMath.exp(-sharpness * (nm - peak) * (nm - peak)), 1).chromaticity();
  }

  /**
   * The colour of an LED die from the figures of its data sheet. A dominant wavelength is not the
   * peak: it names the pure colour of the same hue, seen against equal-energy white. The peak is
   * sought so that the bell curve has that dominant wavelength.
   *
   * @param nm dominant wavelength, 450 to 650
   * @param halfWidth full width at half strength, in nm; 0 for light of one wavelength
   */
  public static Chromaticity dominant(double nm, double halfWidth) {
    if (halfWidth == 0) {
      return monochromatic(nm);
    }
    Chromaticity wanted = monochromatic(nm);
    double low = Math.max(nm - 40, SHORTEST);
    double high = nm + 40;
    // Past the wanted hue the turn changes its sign; forty halvings leave nothing to gain.
    for (int i = 0; i < 40; i++) {
      double middle = (low + high) / 2;
      if (turn(wanted, bell(middle, halfWidth)) > 0) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return bell(low, halfWidth);
  }

  /** Positive when {@code seen}, from equal-energy white, lies on the short-wave side. */
  private static double turn(Chromaticity wanted, Chromaticity seen) {
    double wx = wanted.x() - Chromaticity.EQUAL_ENERGY.x();
    double wy = wanted.y() - Chromaticity.EQUAL_ENERGY.y();
    double sx = seen.x() - Chromaticity.EQUAL_ENERGY.x();
    double sy = seen.y() - Chromaticity.EQUAL_ENERGY.y();
    return wx * sy - wy * sx;
  }

  /** The colours of all wavelengths every 5 nm, shortest first. */
  static List<Chromaticity> locus() {
    return TABLE.subList(0, TABLE.size() - TAIL).stream().map(Xyz::chromaticity).toList();
  }
}
