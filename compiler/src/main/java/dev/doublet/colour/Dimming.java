package dev.doublet.colour;

import java.util.ArrayList;
import java.util.List;

/** Making drives weaker while their colour stays as near as whole levels allow. */
public final class Dimming {
  private Dimming() {}

  /**
   * A drive made weaker.
   *
   * @param drive what to send
   * @param light the light of an LED from the middle of the bins; Y in millicandela
   * @param shift how far rounding moved the colour, in u'v'; infinite when all dies went dark
   */
  public record Dimmed(Drive drive, Xyz light, double shift) {}

  /**
   * A drive at a fraction of its light. Each level is rounded up or down, whichever together keep
   * the colour best.
   *
   * @param fraction of the light, 0 to 1
   */
  public static Dimmed toFraction(LedFamily family, Drive drive, double fraction) {
    Chromaticity before = family.light(drive).chromaticity();
    Dimmed best = null;
    for (Drive rounded : roundings(drive, fraction)) {
      Xyz light = family.light(rounded);
      boolean dark = rounded.lit() == 0;
      double shift = dark ? Double.POSITIVE_INFINITY : before.difference(light.chromaticity());
      if (best == null || shift < best.shift()) {
        best = new Dimmed(rounded, light, shift);
      }
    }
    return best;
  }

  /**
   * Drives brought to the luminous intensity of the weakest, in the order given, so that no colour
   * outshines another.
   */
  public static List<Dimmed> toWeakest(LedFamily family, List<Drive> drives) {
    double weakest = drives.stream().mapToDouble(d -> family.light(d).y()).min().orElse(0);
    return drives.stream()
        .map(drive -> toFraction(family, drive, weakest / family.light(drive).y()))
        .toList();
  }

  /** Every way to round the levels, up before down. */
  private static List<Drive> roundings(Drive drive, double fraction) {
    List<List<Integer>> rows = List.of(List.of());
    for (int level : drive.levels()) {
      double exact = level * fraction;
      List<Integer> choices = new ArrayList<>(List.of((int) Math.ceil(exact)));
      if (Math.floor(exact) < Math.ceil(exact)) {
        choices.add((int) Math.floor(exact));
      }
      List<List<Integer>> longer = new ArrayList<>();
      for (List<Integer> row : rows) {
        for (int choice : choices) {
          List<Integer> next = new ArrayList<>(row);
          next.add(choice);
          longer.add(next);
        }
      }
      rows = longer;
    }
    return rows.stream().map(Drive::new).toList();
  }
}
