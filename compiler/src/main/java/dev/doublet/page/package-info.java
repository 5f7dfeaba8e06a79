/**
 * Pictures: aspects drawn as lamps in their heads, a rulebook's aspect chart and sequence chart as
 * one page. Colours are worked out by {@code colour}; what stands ahead of what, and what is wrong
 * with it, is handed in. Everything drawn is a pure function of its records; the pages hold all
 * they need and ask nothing of a network. Depends on {@code colour}, {@code rulebook} and {@code
 * layout}; the command line uses it.
 */
package dev.doublet.page;
