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
 */
package dev.doublet.syntax;
