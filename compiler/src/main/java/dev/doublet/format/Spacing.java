package dev.doublet.format;

import dev.doublet.source.Span;

/**
 * White space that is to stand in a place of a text.
 *
 * @param span white space, or a point between two pieces
 * @param text what is to stand there
 */
public record Spacing(Span span, String text) {}
