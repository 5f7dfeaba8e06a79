/**
 * Failed lamps, flashers, plates, dies and chains, one at a time: what a crew then sees, what it
 * reads from that, and whether that permits more than was meant. {@link
 * dev.doublet.check.failure.Trial} makes the faults, {@link dev.doublet.check.failure.Crew} reads,
 * {@link dev.doublet.check.failure.Case} weighs, and the checks report. Depends on {@code
 * rulebook}, {@code layout} and {@code colour}; used by the list of checks.
 */
package dev.doublet.check.failure;
