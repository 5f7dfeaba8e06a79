/** A general engine over finite variables: overlaps, gaps and unreachable rows of a table. */
package dev.doublet.cells;
