/**
 * Text that people wrote, and places in it. Depends on nothing; every other package points back
 * into the text with a {@link dev.doublet.source.Span}.
 */
package dev.doublet.source;
