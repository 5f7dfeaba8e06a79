package dev.doublet.cells;

/**
 * Two rows that cover a point in common.
 *
 * @param first the earlier row's place in the table
 * @param second the later row's place
 * @param shared all the points common to both
 * @param conflict whether the rows' results differ
 */
public record Overlap(int first, int second, Cube shared, boolean conflict) {}
