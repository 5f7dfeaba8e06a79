package dev.doublet.bus;

/** Refuses numbers that a format has no room for. */
final class Ranges {
  private Ranges() {}

  static void require(String what, int value, int least, int most) {
    if (value < least || value > most) {
      throw new IllegalArgumentException(
          what + " " + value + " is outside " + least + " to " + most);
    }
  }
}
