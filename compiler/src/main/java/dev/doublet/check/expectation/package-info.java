/** What a rulebook says of itself holds. */
package dev.doublet.check.expectation;
