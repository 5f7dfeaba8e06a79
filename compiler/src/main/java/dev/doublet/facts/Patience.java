package dev.doublet.facts;

import java.util.concurrent.CancellationException;

/** Lets long work end early when nobody waits for it any more: whoever gave it interrupts it. */
public final class Patience {
  private Patience() {}

  /**
   * Goes on unless the work was interrupted.
   *
   * @throws CancellationException when it was
   */
  public static void ask() {
    if (Thread.currentThread().isInterrupted()) {
      throw new CancellationException("nobody waits for this any more");
    }
  }
}
