/**
 * The text of a rulebook as a tree, every part with its exact place, and the mistakes in its
 * grammar. Depends on {@code source}, {@code diagnostic} and the generated parser, which nothing
 * outside this package may see; {@code rulebook} turns trees into a rulebook.
 *
 * <p>A correct text is parsed once, one declaration after another. Where a declaration does not
 * parse, {@link dev.doublet.syntax.Mending} tries small edits of its words and keeps the one that
 * gets furthest, so that one mistake gives one message and the rest of the text is still read.
 */
package dev.doublet.syntax;
