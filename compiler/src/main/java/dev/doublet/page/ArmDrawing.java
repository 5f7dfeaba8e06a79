package dev.doublet.page;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.doublet.layout.Signal;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

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

  /** Of a unit with arms: by state, their places in the signal and how they are drawn there. */
  static void angles(JsonGenerator json, Unit unit, Signal signal) throws IOException {
    Signal.Build build = signal.build();
    List<Integer> arms = new ArrayList<>();
    boolean whole = unit.kind().isWholeSignal();
    for (int place = 0; place < build.heads().size(); place++) {
      String head = signal.name() + " " + build.form().places().get(place);
      if (build.heads().get(place).isArm() && (whole || unit.name().endsWith(head))) {
        arms.add(place);
      }
    }
    if (arms.isEmpty()) {
      return;
    }
    json.writeArrayFieldStart("arms");
    for (State state : unit.kind().states()) {
      json.writeStartArray();
      for (int place : arms) {
        json.writeNumber(place);
        json.writeNumber(degrees(build.heads().get(place), state.picture().get(whole ? place : 0)));
      }
      json.writeEndArray();
    }
    json.writeEndArray();
  }
}
