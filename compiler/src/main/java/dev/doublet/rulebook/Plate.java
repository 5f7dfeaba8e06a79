package dev.doublet.rulebook;

import dev.doublet.source.Span;

/**
 * A plate that changes what an aspect means.
 *
 * @param name as patterns and layouts call it
 * @param span where it is declared
 */
public record Plate(String name, Span span) {}
