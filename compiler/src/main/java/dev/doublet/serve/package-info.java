/**
 * Speaks the Language Server Protocol 3.17 over a pair of streams: turns what an editor sends into
 * texts and places, asks {@code editor}, and turns its answers into messages. The only room that
 * sees the library of the protocol.
 *
 * <p>One thread works on what an editor waits for, in the order in which it was asked: at each
 * change the quick checks, and requests, which so always see the text as it was when they were
 * made. Another runs all checks; the next change interrupts it.
 */
package dev.doublet.serve;
