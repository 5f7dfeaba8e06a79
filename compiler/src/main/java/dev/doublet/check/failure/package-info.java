/**
 * What is said of faults that permit more than was meant: the words for what {@code failure} finds.
 */
package dev.doublet.check.failure;
