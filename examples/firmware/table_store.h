/*
 * Two slots for tables in memory that outlasts power. A table is written to the slot that does not hold the newest,
 * which stays as it is; a check of all comes last. So at whatever byte power fails, the older table is still whole.
 *
 * A slot is a number of writing (4 bytes), a length (4 bytes), the table, and CRC-32C of all these (4 bytes), low
 * bytes first.
 */
#ifndef TABLE_STORE_H
#define TABLE_STORE_H

#include <stdint.h>

#define TABLE_SLOTS 2u
#define TABLE_SLOT_BESIDE 12u /* bytes of a slot beside the table */

/* What a slot holds; a number of 0 says that it holds no whole table. */
struct table_slot {
  uint32_t number;
  uint16_t length;
  uint8_t damaged; /* 1 when it holds something, and no whole table */
};

/* Reads the table of a slot, if it is whole and fits. The bytes may change even when it does not. */
struct table_slot table_slot_read(uint8_t slot, uint8_t *bytes, uint16_t room);

/* Writes a table and reads it back: 1 when it is there. Waits for the memory. */
uint8_t table_slot_write(uint8_t slot, uint32_t number, const uint8_t *bytes, uint16_t length);

#endif
