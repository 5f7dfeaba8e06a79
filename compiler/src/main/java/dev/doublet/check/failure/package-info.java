/**
 * Failed lamps, flashers, plates, dies and chains: what a crew then sees, what it reads from that,
 * and whether that permits more than was meant. A {@link dev.doublet.check.failure.Failure} makes
 * one {@link dev.doublet.check.failure.Condition} of a signal of another, a {@link
 * dev.doublet.check.failure.Trial} is what is then seen, {@link dev.doublet.check.failure.Crew}
 * reads, {@link dev.doublet.check.failure.Case} weighs, and the checks report. Depends on {@code
 * rulebook}, {@code layout} and {@code colour}; used by the list of checks.
 */
package dev.doublet.check.failure;
