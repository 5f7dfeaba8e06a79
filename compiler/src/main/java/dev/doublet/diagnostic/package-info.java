/**
 * What Doublet says about a text, as data, and the words that lists and counts are put in. Depends
 * on {@code source}; every later stage makes diagnostics and none of them prints.
 */
package dev.doublet.diagnostic;
