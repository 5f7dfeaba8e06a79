/**
 * What Doublet says about a text, as data, and its renderings. Depends on {@code source}; every
 * later stage makes diagnostics and none of them prints.
 */
package dev.doublet.diagnostic;
