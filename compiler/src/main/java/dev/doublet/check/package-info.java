/**
 * What Doublet proves about rulebooks and layouts: one class a check, one sub-package a family.
 * Each check reads facts that are computed once, and returns diagnostics. Depends on {@code cells},
 * {@code rulebook}, {@code layout} and, for the memory budget, {@code table}; the compiler runs
 * them.
 */
package dev.doublet.check;
