package dev.doublet.layout;

/**
 * A command value and what it calls up.
 *
 * @param value the value received
 * @param state index into the kind's states
 */
public record Answer(int value, int state) implements Comparable<Answer> {
  @Override
  public int compareTo(Answer other) {
    return Integer.compare(value, other.value);
  }
}
