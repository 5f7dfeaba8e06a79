/**
 * An MQTT broker, and the boards at it that run tables: where it is and who asks, what boards say
 * of themselves, and sending a table to one. Depends on nothing of the compiler: tables come as
 * bytes. Used by {@code show}, whose page joins a broker, and by the command line, which sends.
 *
 * <p>Boards speak as {@code examples/firmware/mqtt.md} has it, which is our own: no standard says
 * how a table travels. MQTT itself is version 3.1.1 (OASIS, 2014), spoken by a library.
 */
package dev.doublet.broker;
