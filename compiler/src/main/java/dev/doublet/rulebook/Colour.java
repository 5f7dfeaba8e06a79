package dev.doublet.rulebook;

import dev.doublet.source.Span;

/**
 * A colour of light that a rulebook names.
 *
 * @param name as the rulebook says it
 * @param span where it is declared
 */
public record Colour(String name, Span span) {}
