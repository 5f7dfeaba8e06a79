/**
 * Colours of light: from LED primaries to drive values that land in a published signal colour
 * region, and what eyes can tell apart. Everything is in CIE 1931 tristimulus values of the
 * 2-degree observer; light adds, so no gamma is used anywhere. Arithmetic keeps to operations whose
 * results the Java language fixes, so the same drive values come out on every machine.
 *
 * <p>Depends on nothing but its own resources, which name their sources. Layouts fill in a part's
 * drive values with it, and the colour checks stand on it.
 *
 * <p><b>Colour.</b> Sides along the spectral locus do not count in a margin. A die stays dark when
 * lighting it gains little. Only {@code StrictMath}, square roots and plain arithmetic are used, so
 * that drive values are the same bytes everywhere. Searches for families with published bins are
 * kept in tables ({@code solved/}), which {@code SolvedDrivesTest} makes anew with {@code
 * -Ddoublet.update=true}; only measured LEDs are searched for in a run.
 *
 * <p><b>Which colours.</b> The usual set is {@code road}: it is made for LEDs, its green is kept
 * from yellow for colour-deficient eyes (that of {@code aerodrome-led} is not: pure green is yellow
 * to a protan), and every family reaches its red, yellow and green with an LED from the middle of
 * the bins. A colour that it lacks is aimed where the family reaches it deepest. A drive prefers
 * the set asked for with a middling LED to another set with every LED. A rulebook that asks for no
 * set claims nothing, so findings need a light that is in no published region at all.
 */
package dev.doublet.colour;
