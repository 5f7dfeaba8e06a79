/**
 * Whether warnings that somebody lives with are still there.
 *
 * <p><b>Acceptances.</b> A finding says what it is about by names ({@code Diagnostic.about}), and
 * is accepted only by somebody who names them all: a new signal with the same fault makes a new
 * finding. An accepted warning is a note with its reason. Errors are never accepted, nor are
 * warnings that the language answers in another way ({@code cover}, {@code otherwise}).
 */
package dev.doublet.check.acceptance;
