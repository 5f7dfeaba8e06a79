package dev.doublet.source;

/**
 * A place in a text as an editor counts it.
 *
 * @param line from 1
 * @param column from 1, in Unicode code points
 */
public record Position(int line, int column) {}
