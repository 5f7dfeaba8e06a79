/**
 * How commands travel: DCC accessory addresses and packets, OpenLCB event ids, MQTT topics. Knows
 * nothing of signals and depends on nothing; layouts, checks and tables use it.
 */
package dev.doublet.bus;
