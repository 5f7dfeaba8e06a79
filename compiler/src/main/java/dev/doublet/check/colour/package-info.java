/**
 * Whether colours and rhythms are what published standards allow, and can be told apart. Stands on
 * {@code colour} for regions, LEDs and eyes.
 *
 * <p><b>Fast flashes.</b> WCAG 2.2 lets small lights flash as they like. From 1 m that takes 1,273
 * lamps at 1:87 to fail, from 0.1 m only 13, and all signals of a controller flash in step; a
 * rulebook knows neither. So {@code fast-flash} judges the rate alone, with a warning.
 */
package dev.doublet.check.colour;
