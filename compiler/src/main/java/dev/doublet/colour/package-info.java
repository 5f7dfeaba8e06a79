/**
 * Colours of light: from LED primaries to drive values that land in a published signal colour
 * region, and what eyes can tell apart. Everything is in CIE 1931 tristimulus values of the
 * 2-degree observer; light adds, so no gamma is used anywhere. Arithmetic keeps to operations whose
 * results the Java language fixes, so the same drive values come out on every machine.
 *
 * <p>Depends on nothing but its own resources, which name their sources. Layouts fill in a part's
 * drive values with it, and the colour checks stand on it.
 */
package dev.doublet.colour;
