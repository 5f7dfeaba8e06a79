/**
 * What flows: the draw of each chain over all it can show, which lamps can be lit at one moment,
 * and the volts and amperes along a cable. Depends on {@code layout} and, for the bytes that are
 * sent, {@code table}; checks, charts and the command line use it.
 */
package dev.doublet.power;
