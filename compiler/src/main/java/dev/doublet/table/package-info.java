/**
 * The table a controller reads: what it holds, how it is written byte by byte, an independent
 * decoder, the proof that both say what the layout says, a listing for people and a C header for
 * firmware. The format is described in table.md beside the classes. Depends on {@code layout};
 * checks, charts, {@code power} and the compiler use it.
 */
package dev.doublet.table;
