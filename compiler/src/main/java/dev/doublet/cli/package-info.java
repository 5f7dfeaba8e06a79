/**
 * The command line: one class a verb. It parses options, calls the compiler and prints; nothing
 * else in Doublet reads or writes files. Depends on everything; nothing depends on it.
 *
 * <p><b>Cold starts.</b> While {@code check} parses its options on one processor, a second one
 * checks a layout of one signal, which loads the classes of the compiler: 1.26 s instead of 1.45
 * for the same processor time (medians of 15 in turns, Java 17, a busy machine). {@code build} did
 * not gain by it and {@code explain} lost a third, so they do without. Where other work fills both
 * processors it gains nothing, and costs 6 percent of processor time (25 in turns, load 20). Only
 * the verb asked for is set up. Texts are joined in plain bytecode, and checks that give only notes
 * do not run unless notes are asked for: all four were seen in the time of a cold start.
 *
 * <p><b>Starting up.</b> The launcher keeps an archive of loaded classes for each Java: an
 * ahead-of-time cache from Java 25 on, a static class-data archive before. With the first compiler
 * tier and the serial collector this is the quickest start that each offers; the rest is spent in
 * the bytecode of picocli, ANTLR and the YAML reader.
 */
package dev.doublet.cli;
