package dev.doublet.colour;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * How hard each die of an LED is driven.
 *
 * @param levels 0 to 255 each, in the order red, green, blue and, where the LED has one, white
 */
public record Drive(List<Integer> levels) {
  /** The level of full drive. */
  public static final int FULL = 255;

  /** Copies the list. */
  public Drive {
    levels = List.copyOf(levels);
  }

  /** A drive from its levels. */
  public static Drive of(int... levels) {
    List<Integer> all = new ArrayList<>(levels.length);
    for (int level : levels) {
      all.add(level);
    }
    return new Drive(all);
  }

  /** The level of one die, by its place. */
  public int level(int die) {
    return levels.get(die);
  }

  /** How many dies are lit. */
  public int lit() {
    return (int) levels.stream().filter(level -> level > 0).count();
  }

  /** The levels with commas between. */
  @Override
  public String toString() {
    return levels.stream().map(String::valueOf).collect(Collectors.joining(","));
  }
}
