/**
 * What stands on a layout, resolved against its rulebook: buses, controllers, chains of LEDs, and
 * signals with their places and commands. Depends on {@code rulebook}, {@code bus} and {@code
 * colour}; checks and tables stand on it, and {@code layout.read} makes it.
 */
package dev.doublet.layout;
