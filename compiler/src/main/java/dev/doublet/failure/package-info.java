/**
 * Failed lamps, flashers, plates, dies and chains: what a crew then sees, what it reads from that,
 * whether that permits more than was meant, and what would mend it. A {@link
 * dev.doublet.failure.Failure} makes one {@link dev.doublet.failure.Condition} of a signal of
 * another, a {@link dev.doublet.failure.Trial} is what is then seen, {@link
 * dev.doublet.failure.Crew} reads, and {@link dev.doublet.failure.Case} weighs. Depends on {@code
 * rulebook}, {@code layout} and {@code colour}; {@code facts} gathers its sites, and checks report.
 *
 * <p><b>Faults.</b> Each fault is a function from how a signal stands ({@code Condition}) to how it
 * stands then, so that two at once are one after the other, in any order. A pair is told only where
 * it is read as permitting more than either of its faults alone is: the single ones must be mended
 * anyway. Pairs have a budget of steps shared out by pictures, and a warning says when it was not
 * enough. What is stuck (a lamp, a vane, a die that stays lit) is tried alone: it is rare, and
 * shows what was shown there before, so that a remedy may put up nothing that could then be stuck
 * elsewhere ({@code Place}). That pairs are warnings at most is because 49 CFR 236.23(f) speaks of
 * a failed lamp. A remedy that changes the book (another picture, another rule for imperfect
 * signals) is held against every single fault of every site ({@code Before}): the hazard must be
 * gone, and nothing misread that was not. A picture changes for all that is written on its line.
 * {@code RemediesTest} writes each into the text and tries again. Another colour is named only when
 * nothing else helps, since what a colour means is the last thing that a railway changes. A
 * rulebook has many layouts, so {@code idle-cover} calls idle only what no layout can need ({@code
 * AnyLayout}): any wiring is any set of heads dark, and an LED measured or driven by a layout may
 * be left with any colour. What Doublet's own families never need is a note.
 */
package dev.doublet.failure;
