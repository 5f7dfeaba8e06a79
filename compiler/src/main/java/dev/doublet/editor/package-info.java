/**
 * What an editor asks of texts that are being written: findings at each keystroke, what may come
 * next, what a name means and where else it stands. All of it is worked out of texts that are
 * handed in; the protocol that editors speak is {@code serve}'s affair.
 *
 * <p>Findings come at two speeds. {@link dev.doublet.editor.Root} reads a rulebook or layout with
 * the quick checks or with all; until all have run again, {@link
 * dev.doublet.editor.CarriedFindings} keeps those findings of the slow ones whose declarations
 * still say the same, moved with their text. A finding that may no longer hold is dropped rather
 * than kept.
 *
 * <p>Renaming is judged by its outcome: the changed texts are read again, and a new name that makes
 * an error which was not there is refused with that error's words.
 */
package dev.doublet.editor;
