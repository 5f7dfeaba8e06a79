/**
 * Findings as text for people, as JSON, as a SARIF log and as annotation lines for programs, and
 * which of them were known before. Depends on {@code diagnostic}; the command line uses it.
 */
package dev.doublet.report;
