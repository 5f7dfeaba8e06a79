package dev.doublet.syntax;

import dev.doublet.source.Span;

/**
 * A remark from {@code #} to the end of its line.
 *
 * @param text with the {@code #}
 * @param span where
 */
public record Comment(String text, Span span) {}
