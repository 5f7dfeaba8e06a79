/**
 * Texts as trees, every part with its exact place, and the mistakes in their grammar: the .aspects
 * language of rulebooks ({@link dev.doublet.syntax.AspectsSyntax}) and the YAML of layouts ({@link
 * dev.doublet.syntax.YamlReader}). Depends on {@code source} and {@code diagnostic}, and alone sees
 * the generated parser and the YAML library; {@code rulebook} and {@code layout} resolve what the
 * trees say.
 *
 * <p>A correct rulebook is parsed once, one declaration after another. Where a declaration does not
 * parse, {@link dev.doublet.syntax.Mending} tries small edits of its words and keeps the one that
 * gets furthest, so that one mistake gives one message and the rest of the text is still read.
 *
 * <p><b>The language.</b> One token of lookahead decides everything and no rule refers to itself,
 * so no text can exhaust the stack, and no prediction tables are built at start-up. Order carries
 * meaning in two places only: lamps of a head stand in chain order, and of an aspect's patterns
 * with equally many plates the first is shown. Strings have no escapes. Parsing stops at the first
 * word that does not fit; {@code Edits} then tries small changes (a misspelt, missing or doubled
 * word) and keeps the one that reads furthest, so one mistake gives one message. A mistake costs
 * the declaration that it stands in: the names in it count as declared but unknown, so nothing is
 * said of their uses, and what is left of the book is resolved.
 */
package dev.doublet.syntax;
