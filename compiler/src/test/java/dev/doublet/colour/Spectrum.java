package dev.doublet.colour;

/** Colours of light by its wavelengths, from which the data of LED families was worked out. */
final class Spectrum {
  private Spectrum() {}

  /**
   * The colour of light of one wavelength.
   *
   * @param nm 380 to 700
   */
  static Chromaticity monochromatic(double nm) {
    return Observer.at(nm).chromaticity();
  }

  /**
   * The colour of an LED die whose spectrum is a bell (Gaussian) curve.
   *
   * @param peak wavelength of its strongest light, in nm
   * @param halfWidth full width at half strength, in nm; 0 for light of one wavelength
   */
  static Chromaticity bell(double peak, double halfWidth) {
    if (halfWidth == 0) {
      return monochromatic(peak);
    }
    double sharpness = 4 * StrictMath.log(2) / (halfWidth * halfWidth);
    return Observer.look(nm -> StrictMath.exp(-sharpness * (nm - peak) * (nm - peak)), 1)
        .chromaticity();
  }

  /**
   * The colour of an LED die from the figures of its data sheet. A dominant wavelength is not the
   * peak: it names the pure colour of the same hue, seen against equal-energy white. The peak is
   * sought so that the bell curve has that dominant wavelength.
   *
   * @param nm dominant wavelength, 450 to 650
   * @param halfWidth full width at half strength, in nm; 0 for light of one wavelength
   */
  static Chromaticity dominant(double nm, double halfWidth) {
    if (halfWidth == 0) {
      return monochromatic(nm);
    }
    Chromaticity wanted = monochromatic(nm);
    double low = Math.max(nm - 40, Observer.SHORTEST);
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

  /**
   * A coloured die by its data sheet.
   *
   * @param lowNm least dominant wavelength, in nm
   * @param highNm greatest dominant wavelength, in nm
   * @param halfWidth full width of its spectrum at half strength, in nm; 0 for one wavelength
   * @param lowMcd least luminous intensity, in millicandela
   * @param highMcd greatest luminous intensity, in millicandela
   */
  static Die die(
      Channel channel,
      double lowNm,
      double highNm,
      double halfWidth,
      double lowMcd,
      double highMcd,
      String evidence) {
    return Die.of(
        channel,
        dominant(lowNm, halfWidth),
        dominant(highNm, halfWidth),
        dominant((lowNm + highNm) / 2, halfWidth),
        lowMcd,
        highMcd,
        evidence);
  }
}
