package dev.doublet.layout;

/**
 * How an LED goes from one light to another.
 *
 * @param filament true when it glows as a filament lamp does, false when it switches at once
 * @param middle the colour that it passes between two others, as searchlights' vanes do; empty when
 *     it passes none
 */
public record Glow(boolean filament, String middle) {
  /** An LED that switches at once. */
  public static final Glow NONE = new Glow(false, "");
}
