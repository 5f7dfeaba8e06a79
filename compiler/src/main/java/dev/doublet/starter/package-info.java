/**
 * A rulebook and a layout to begin with: texts with comments that teach, which check clean and
 * build at once. Names, numbers and sizes are inventions and choices of ours. Every address is
 * written, so that a signal added later moves none. Used by the command line.
 */
package dev.doublet.starter;
