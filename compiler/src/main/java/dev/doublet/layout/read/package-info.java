/**
 * Reads layouts: each class one part of a layout file, complaining of what it cannot use. Depends
 * on {@code syntax}, {@code rulebook} and the records of {@code layout}, which know nothing of it;
 * the compiler uses it.
 */
package dev.doublet.layout.read;
