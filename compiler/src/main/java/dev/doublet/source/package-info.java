/**
 * Text that people wrote, and places in it. Depends on nothing; what is said of a text points back
 * into it with a {@link dev.doublet.source.Span}.
 */
package dev.doublet.source;
