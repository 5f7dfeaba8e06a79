/**
 * Failed lamps, flashers, plates, dies and chains: what a crew then sees, what it reads from that,
 * whether that permits more than was meant, and what would mend it. A {@link
 * dev.doublet.failure.Failure} makes one {@link dev.doublet.failure.Condition} of a signal of
 * another, a {@link dev.doublet.failure.Trial} is what is then seen, {@link
 * dev.doublet.failure.Crew} reads, and {@link dev.doublet.failure.Case} weighs. Depends on {@code
 * rulebook}, {@code layout} and {@code colour}; {@code facts} gathers its sites, and checks report.
 */
package dev.doublet.failure;
