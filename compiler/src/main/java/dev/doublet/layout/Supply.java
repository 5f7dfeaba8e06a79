package dev.doublet.layout;

/**
 * What feeds a chain.
 *
 * @param name as the layout's {@code supplies} call it, where chains may share it; empty for a
 *     chain's own
 * @param volts its voltage; 0 when not given
 * @param milliamps what it can give; 0 when not given
 */
public record Supply(String name, double volts, int milliamps) {
  /** Nothing was said. */
  public static final Supply UNSAID = new Supply("", 0, 0);
}
