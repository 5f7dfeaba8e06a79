/**
 * A rulebook with every name resolved: speeds, colours, rhythms, heads, forms, plates and aspects,
 * and the order of restrictiveness between aspects. Depends on {@code source}, {@code diagnostic}
 * and {@code syntax}; layouts, checks and tables stand on it.
 */
package dev.doublet.rulebook;
