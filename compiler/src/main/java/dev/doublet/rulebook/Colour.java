package dev.doublet.rulebook;

import dev.doublet.source.Span;

/**
 * A colour of light that a rulebook names.
 *
 * @param name as the rulebook says it
 * @param published the name of the published signal colour that it is; its own when the rulebook
 *     does not say
 * @param span where it is declared
 */
public record Colour(String name, String published, Span span) {}
