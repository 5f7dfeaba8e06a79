/**
 * What Doublet says of rulebooks and layouts: one class a check, one sub-package a family. Each
 * check reads {@code facts} that are computed once, and returns diagnostics: when to speak and what
 * to say. The compiler runs them.
 */
package dev.doublet.check;
