/**
 * Findings as text for people, and what a run says of them at its end. Depends on {@code
 * diagnostic}; the command line uses it.
 */
package dev.doublet.report;
