/**
 * Whether colours and rhythms are what published standards allow, and can be told apart. Stands on
 * {@code colour} for regions, LEDs and eyes.
 */
package dev.doublet.check.colour;
