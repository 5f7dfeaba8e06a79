/**
 * The command line: one class a verb. It parses options, calls the compiler and prints; nothing
 * else in Doublet reads or writes files. Depends on everything; nothing depends on it.
 */
package dev.doublet.cli;
