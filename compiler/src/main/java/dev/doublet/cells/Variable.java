package dev.doublet.cells;

/**
 * One variable of a table: a name for messages, and the values {@code 0 .. size-1} it can take.
 *
 * @param name what the variable is called; the engine never interprets it
 * @param size how many values it has, at least 1
 */
public record Variable(String name, int size) {

  /**
   * Checks the size.
   *
   * @throws IllegalArgumentException if the variable has no value
   */
  public Variable {
    if (size < 1) {
      throw new IllegalArgumentException(name + " must have at least one value, not " + size);
    }
  }
}
