/**
 * The table a controller reads: what it holds, how it is written byte by byte, an independent
 * decoder, the proof that both say what the layout says, a listing for people and a C header for
 * firmware. The format is described in DEVELOPERS.md, "The table, byte by byte". Depends on {@code
 * layout}; the command line uses it.
 */
package dev.doublet.table;
