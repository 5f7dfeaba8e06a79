package dev.doublet.cli;

import dev.doublet.diagnostic.Words;

/**
 * What an option takes that is a whole number.
 *
 * @param option as it is typed: "--width"
 * @param unit of the number: "millimetres"; empty for a plain one
 * @param least the smallest that will do, not below 0
 * @param most the largest
 */
record WholeNumber(String option, String unit, int least, int most) {

  /**
   * The number that was typed.
   *
   * @throws IllegalArgumentException when it is none of the range; the message says what will do
   */
  int of(String text) {
    int number = text.matches("[0-9]{1,9}") ? Integer.parseInt(text) : -1;
    if (number < least || number > most) {
      throw new IllegalArgumentException(
          Words.say(
              "%s takes a whole number%s from %d to %d, not \"%s\"",
              option, unit.isEmpty() ? "" : " of " + unit, least, most, text));
    }
    return number;
  }
}
