package dev.doublet.diagnostic;

import dev.doublet.source.Span;

/**
 * A part of a text with a few words about it.
 *
 * @param span the part to underline
 * @param text what that part is; may be empty
 */
public record Label(Span span, String text) {}
