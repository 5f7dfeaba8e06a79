/* Which table the firmware with OpenLCB is for: these lines are all that changes from layout to layout. */
#ifndef OPENLCB_TABLE_H
#define OPENLCB_TABLE_H

#include "doublet_reader.h"
#include "bank.h"

#define TABLE bank_table
#define TABLE_STATE_BYTES BANK_STATE_BYTES
#define TABLE_UNITS BANK_UNITS
#define TABLE_BUS BANK_BUS_CAN
#define TABLE_LED_BYTES BANK_BYTES_OF_CHAIN_HARBOUR /* of the longest chain; more would be cut off */

#endif
