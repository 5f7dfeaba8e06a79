/* Signals on a board with CAN: OpenLCB's events in, LEDs out. */
#ifndef OPENLCB_SIGNALS_H
#define OPENLCB_SIGNALS_H

#include <stdint.h>

/* Opens the table. The node's number is its owner's: OpenLCB's Unique Identifiers Standard says where to get one. */
void openlcb_signals_begin(const uint8_t id[6]);

/* Does what is due, without waiting but for the board's calls. Call it every few milliseconds. */
void openlcb_signals_go_on(void);

#endif
