/**
 * What checks, charts and verbs share, worked out once: the looks of a rulebook and its patterns as
 * a table for the engine, the builds, kinds, glows and sites of a layout; and how faults are said.
 * Depends on {@code cells}, {@code failure}, {@code power} and everything they stand on.
 *
 * <p><b>Who must see.</b> Normal eyes always count, tritan ones where lamps are small; red and
 * yellow on one searchlight are alike to red-green deficient eyes, as on the full-size railway, so
 * those count only when a layout says so ({@code eyes}), and are notes otherwise. Brightness is
 * left out. How large a lens looks and whether the lamps of a head merge is worked out once ({@code
 * ApparentSize}); where they merge, a head is one lamp and shows the mixture of what is lit.
 *
 * <p><b>Which LEDs must be told apart.</b> Those from the middle of the bins, as errors and
 * warnings. LEDs from the ends of the bins are one step weaker: a builder can do nothing about them
 * but measure. A family's bins fill a convex area of u'v' (light adds, and the diagram keeps lines
 * straight), so the nearest two LEDs are found from the hulls of the corners; corners alone were up
 * to 0.024 too far apart for random drives. Over all seven families, 2 to 100 percent of drive, to
 * normal and tritan eyes, the least of the middle / of any two LEDs: red and yellow 0.146 / 0.082,
 * yellow and lunar 0.095 / 0.060, green and lunar 0.096 / 0.077, yellow and green 0.215 / 0.157,
 * red and green 0.401 / 0.382. So bins add no finding to the usual colours. They add a warning for
 * purple against yellow (2 of 40 cases, tritan; 38 are alike already), notes for purple against
 * warm white (30 of 40), and six notes for warm white at 2 percent. To protan eyes that a layout
 * asks for they add notes for green against lunar (39 of 56) and yellow (14 of 56); to deutan ones,
 * warnings for green against lunar (14 of 56; 39 are alike already).
 */
package dev.doublet.facts;
