package dev.doublet.diagnostic;

import dev.doublet.source.Span;

/**
 * A change of the text that would mend what a diagnostic found.
 *
 * @param title what the change does, as an order: "write yellow"
 * @param span the part to replace
 * @param replacement the new characters
 * @param safe true when the change cannot alter what the author meant
 */
public record Fix(String title, Span span, String replacement, boolean safe) {}
