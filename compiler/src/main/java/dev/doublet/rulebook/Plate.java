package dev.doublet.rulebook;

import dev.doublet.source.Span;

/**
 * A plate that changes what an aspect means.
 *
 * @param name as patterns and layouts call it
 * @param withoutStop true when signals that carry it are never meant to show the most restrictive
 *     aspect of the book (a signal that may be passed after a stop, for one)
 * @param span where it is declared
 */
public record Plate(String name, boolean withoutStop, Span span) {

  /** A plate's name as the language has it: in quotation marks when it has several words. */
  static String words(String name) {
    return name.chars().anyMatch(Character::isWhitespace) ? '"' + name + '"' : name;
  }
}
