package dev.doublet.page;

import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;

/**
 * The bar of a semaphore arm, which points to the left of its lamp. A book says no angles: an arm
 * is drawn level at its safe side and 45 degrees higher for each further position, or less where
 * the last would be above 90. That, as its shape, is our own drawing and no railway's.
 */
final class ArmDrawing {
  /** From the lamp to the end of the bar. */
  static final double REACH = 40;

  private static final double WIDTH = 9;

  private ArmDrawing() {}

  /** How far above the level an arm is drawn. */
  static int degrees(HeadType arm, Display display) {
    int last = arm.positions().size() - 1;
    int at = Math.max(0, arm.positions().indexOf(display.look()));
    return last <= 2 ? 45 * at : 90 * at / last;
  }

  /**
   * The bar of an arm whose lamp is in some place.
   *
   * @param more further attributes, each after a space
   */
  static String bar(int degrees, double x, double y, String more) {
    String turned =
        degrees == 0
            ? ""
            : " transform=\"rotate(" + degrees + " " + Xml.number(x) + " " + Xml.number(y) + ")\"";
    return "<rect class=\"body\" x=\""
        + Xml.number(x - REACH)
        + "\" y=\""
        + Xml.number(y - WIDTH / 2)
        + "\" width=\""
        + Xml.number(REACH)
        + "\" height=\""
        + Xml.number(WIDTH)
        + "\""
        + turned
        + more
        + "/>";
  }
}
