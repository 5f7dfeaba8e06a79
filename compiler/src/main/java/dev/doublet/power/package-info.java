/**
 * What flows: the draw of each chain over all it can show, which lamps can be lit at one moment,
 * and the volts and amperes along a cable. Depends on {@code layout} and, for the bytes that are
 * sent, {@code table}; checks, charts and the command line use it.
 *
 * <p><b>Cables.</b> Length runs from the supply to the last LED, with LEDs evenly spaced. Feeds are
 * the complete list, and 0 is the cable's start. Every figure is exact for the pictures and the
 * instant worst for it alone: what an LED loses and what a feed leads in are weighted sums of
 * currents (superposition), so each signal's picture can be chosen without the others. Between two
 * feeds the resistance that two LEDs share is a product of one factor each, so the choice for a
 * signal is the same for all LEDs on one side of it, and a chain takes a few passes for all LEDs
 * and feeds together. {@code FlowTest} holds this against every choice of pictures, solved as a
 * matrix. Where a cable is said as it lies, LEDs stand where their signals do, and wires of feeds
 * and signals resist too; a further supply's LEDs are a line for themselves, as its current cannot
 * return to another. {@code CableAsItLiesTest} holds that against circuits solved node by node.
 * Currents are those of the bytes sent by day, also on the way from one picture to another: as a
 * sketch may say another time of swing, old and new filaments are counted whole.
 *
 * <p><b>Lamps that take turns.</b> The rhythms of a controller run on one clock, so a worst case is
 * the worst at one {@code Moment}: between two edges the same rhythms are lit, and only the largest
 * such sets count. Parts of two periods meet when some of their milliseconds are alike modulo the
 * greatest common divisor, so two periods are exact; of three, sets may count that only two at a
 * time reach. A filament that dies away and one that comes up are never more than one whole light,
 * so filaments of one period never draw more than when each is fully on or off at some instant;
 * lamps that switch at once, and filaments of another period, may meet them at any. Over 64
 * moments, or where chains are of several controllers, all may be lit together. Two lamps half lit
 * each, of a period of an odd number of milliseconds, are lit together for one of them, and count
 * so. {@code MomentTest} holds this against every millisecond, {@code TakingTurnsDrawTest} against
 * frames.
 */
package dev.doublet.power;
