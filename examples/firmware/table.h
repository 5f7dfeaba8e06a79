/* Which table the firmware is for: these lines are all that changes from layout to layout. */
#ifndef TABLE_H
#define TABLE_H

#define DOUBLET_NO_TOPICS /* this board hears DCC alone */
#define DOUBLET_NO_EVENTS
/* The yard has none of these, and each costs time at every LED. Take away the line of what your layout has: a table that
 * needs what is left out is refused. */
#define DOUBLET_NO_NUMERALS
#define DOUBLET_NO_LEVELS /* brightness by signal */
#define DOUBLET_NO_CHIPS  /* driver chips */
#include "doublet_reader.h"
#include "yard.h"

#define TABLE yard_table
#define TABLE_STATE_BYTES YARD_STATE_BYTES
#define TABLE_UNITS YARD_UNITS
#define TABLE_BUS YARD_BUS_DCC
#define TABLE_CHAINS YARD_CHAINS
#ifdef DOUBLET_SERVOS /* define it above where arms are moved */
#define TABLE_SERVOS YARD_SERVOS
#endif
#define TABLE_LED_BYTES YARD_BYTES_OF_CHAIN_MAIN /* of the longest chain; more would be cut off */

/* Where a bootloader writes a table later on, and its room in bytes; NULL for nowhere. Such a table is taken when it
 * wants no more units, chains and bytes of a chain than are said above: say more to leave room for them. Its bus of DCC
 * must have the same place among the buses. */
#ifdef __AVR__
#define TABLE_LATER ((const uint8_t *)0x4000)
#else
#define TABLE_LATER NULL
#endif
#define TABLE_ROOM 0x3800u

#endif
