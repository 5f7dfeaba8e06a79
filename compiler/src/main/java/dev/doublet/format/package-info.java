/**
 * The one form in which texts are kept: {@link dev.doublet.format.Format} says which white space to
 * change. Nothing else of a text is ever changed, so no word and no comment can be lost: the form
 * is worked out as white space between the pieces that {@code syntax} gives, and what would come of
 * it is read again and compared with what was there before anybody hears of it. Depends on {@code
 * syntax} and below; {@code cli} and {@code serve} use it.
 *
 * <p>What the form is, {@code form.md} beside this file says. Whatever is decided hangs on three
 * things that the form itself keeps: the words with their comments, which comments stand on lines
 * of their own, and which declarations lie on one line or have a blank line before them. So a text
 * in its form stays as it is.
 */
package dev.doublet.format;
