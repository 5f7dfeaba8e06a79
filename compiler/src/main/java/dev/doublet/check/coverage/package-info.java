/** What a signal should show and cannot, and what a command calls up or does not. */
package dev.doublet.check.coverage;
