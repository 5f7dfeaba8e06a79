/**
 * A rulebook with every name resolved: speeds, colours, rhythms, heads, forms, plates and aspects,
 * and the order of restrictiveness between aspects. Depends on {@code source}, {@code diagnostic},
 * {@code syntax} and, for the names of published colours, {@code colour}; layouts, checks and
 * tables stand on it.
 *
 * <p>A book is always made, of what could be read: a mistake costs the declaration that it stands
 * in. What such a declaration may declare is {@linkplain dev.doublet.rulebook.Unread unread}, and
 * nothing is said of its uses.
 */
package dev.doublet.rulebook;
