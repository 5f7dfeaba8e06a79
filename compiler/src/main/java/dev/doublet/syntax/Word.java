package dev.doublet.syntax;

import dev.doublet.source.Span;

/**
 * A name, a number, a date or the inside of a string, as written.
 *
 * @param text without quotes, in Unicode's composed form
 * @param span where, quotes included
 */
public record Word(String text, Span span) {}
