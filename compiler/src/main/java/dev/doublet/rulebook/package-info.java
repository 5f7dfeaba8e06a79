/**
 * A rulebook with every name resolved: speeds, colours, rhythms, heads, forms, plates and aspects,
 * and the order of restrictiveness between aspects. Depends on {@code source}, {@code diagnostic},
 * {@code syntax} and, for the names of published colours, {@code colour}; layouts, checks and
 * tables stand on it.
 */
package dev.doublet.rulebook;
