/**
 * What checks, charts and verbs share, worked out once: the looks of a rulebook and its patterns as
 * a table for the engine, the builds, kinds, glows and sites of a layout. Depends on {@code cells},
 * {@code failure} and everything they stand on.
 */
package dev.doublet.facts;
