package dev.doublet.layout;

/**
 * How an LED goes from one light to another.
 *
 * @param filament true when it glows as a filament lamp does, false when it switches at once
 * @param middle the colour that it passes between two others, as searchlights' vanes do; empty when
 *     it passes none
 */
public record Glow(boolean filament, String middle) {
  /**
   * Milliseconds that a vane takes from one colour to the next: a third with the old one, a third
   * with the middle one and a third with the new one; none is published, and a sketch may change
   * it.
   */
  public static final int SWING = 300;

  /** An LED that switches at once. */
  public static final Glow NONE = new Glow(false, "");
}
