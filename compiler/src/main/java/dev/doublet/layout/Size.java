package dev.doublet.layout;

/**
 * How large a signal and its lamps are.
 *
 * @param scale the ratio it is built in: 87.1 for 1:87.1
 * @param own true when the signal or its kind says the scale, false when it is the layout's
 * @param lens width of its lenses at full size, in mm
 * @param fibre diameter of the fibre that ends in each lens, in mm on the model; 0 without
 */
public record Size(double scale, boolean own, double lens, double fibre) {

  /** What is so many millimetres at full size, in millimetres on the model. */
  public double onModel(double fullSize) {
    return fullSize / scale;
  }

  /** How wide what is seen of a lamp is on the model, in mm: a fibre's end, or else the lens. */
  public double seen() {
    return fibre > 0 ? Math.min(fibre, onModel(lens)) : onModel(lens);
  }
}
