package dev.doublet.colour;

import java.util.Locale;

/** What a die of a multi-colour LED shines, in the order of drive values. */
public enum Channel {
  /** Red. */
  RED,
  /** Green. */
  GREEN,
  /** Blue. */
  BLUE,
  /** White, from a blue die under phosphor. */
  WHITE;

  /** Its name in lower case. */
  @Override
  public String toString() {
    return name().toLowerCase(Locale.ROOT);
  }
}
