package dev.doublet.rulebook;

import java.util.List;

/**
 * What one head shows.
 *
 * @param look a colour's or figure's name, or {@code dark}
 * @param rhythm a rhythm's name, or empty when steady
 */
public record Display(String look, String rhythm) implements Comparable<Display> {
  /** No lamp lit. */
  public static final Display DARK = new Display("dark", "");

  /** A steady display. */
  public static Display steady(String look) {
    return new Display(look, "");
  }

  /** As the language says it: "flashing yellow". */
  public String words() {
    return rhythm.isEmpty() ? look : rhythm + " " + look;
  }

  /** A picture in words, its heads from top to bottom: "yellow over red". */
  public static String over(List<Display> picture) {
    return String.join(" over ", picture.stream().map(Display::words).toList());
  }

  @Override
  public int compareTo(Display other) {
    int byLook = look.compareTo(other.look);
    return byLook != 0 ? byLook : rhythm.compareTo(other.rhythm);
  }
}
