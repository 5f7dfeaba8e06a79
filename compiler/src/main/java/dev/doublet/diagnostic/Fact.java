package dev.doublet.diagnostic;

import dev.doublet.source.Visible;

/**
 * One named value of a diagnostic: a witness, a figure, a pair of permissions.
 *
 * @param name what it is: "picture", "needed", "free"
 * @param value as shown
 */
public record Fact(String name, String value) {
  /** Makes the words brief. */
  public Fact {
    name = Visible.brief(name);
    value = Visible.brief(value);
  }
}
