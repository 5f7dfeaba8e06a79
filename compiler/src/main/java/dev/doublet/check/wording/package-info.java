/** What a rulebook says twice, or against itself. */
package dev.doublet.check.wording;
