package dev.doublet.check.budget;

import dev.doublet.layout.Controller;

/** How much working memory a controller needs beside its own program. */
public final class Memory {
  /** The reader's own, on the largest of the machines it runs on. */
  private static final int READER = 16;

  private static final int STATE_A_UNIT = 2;

  private Memory() {}

  /** Bytes for the reader, its state, and a buffer for the LEDs of every chain. */
  public static int ramBytes(Controller controller) {
    return READER + STATE_A_UNIT * controller.units().size() + ledBytes(controller);
  }

  /** Bytes for a buffer for the LEDs of every chain. */
  public static int ledBytes(Controller controller) {
    return controller.chains().stream().mapToInt(c -> c.leds() * c.part().channels()).sum();
  }
}
