package dev.doublet.layout;

import dev.doublet.colour.Eye;
import java.util.List;

/**
 * From where a layout is looked at, and by whom.
 *
 * @param metres how far the eye is from the signals, above 0
 * @param lampSpacing millimetres between neighbouring lamps of a head, at full size
 * @param eyes the eyes for which colours must differ, besides normal ones; in no order
 */
public record Viewing(double metres, double lampSpacing, List<Eye> eyes) {
  /** An arm's length and a bit, for eyes that were not asked for by name. */
  public static final double METRES = 1;

  /** A common spacing of the lamps of a full-size head; a choice of ours. */
  public static final double LAMP_SPACING = 300;

  /** Copies the list. */
  public Viewing {
    eyes = List.copyOf(eyes);
  }
}
