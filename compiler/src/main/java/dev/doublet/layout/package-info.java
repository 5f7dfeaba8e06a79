/**
 * What stands on a layout, resolved against its rulebook: buses, controllers, chains of LEDs, and
 * signals with their places and commands. Depends on {@code rulebook}, {@code bus} and {@code
 * colour}; checks and tables stand on it, and {@code layout.read} makes it.
 *
 * <p><b>{@code otherwise} is never assumed.</b> NMRA S-9.2.1 is silent about values that call up
 * nothing, MOROP NEM 672 says ignore, and ignoring may leave a proceed aspect up. The layout
 * decides, once, in its first lines.
 *
 * <p><b>Masts.</b> No published size of a mast was found, and no two railroads agree; so heights
 * are common practice, from memory, said to be so wherever they are listed, and one key of a signal
 * ({@code mast}) replaces them. Nothing but {@code wiring} reads them, so they are no part of a
 * build or kind.
 */
package dev.doublet.layout;
