/*
 * The states that signals showed last, kept over a loss of power in memory that wears and that a power cut may leave
 * half written: a ring of slots, each with a number, the bytes, and a check of both. Each writing goes to the slot
 * after the newest, so wear is spread over all, and the newest stays whole until the next one is.
 *
 * Where the memory has no room for two slots, nothing is kept.
 */
#ifndef STORE_H
#define STORE_H

#include <stdint.h>

#define STORE_BESIDE 6u /* bytes of a slot beside those kept */

/* All zeros before store_find. */
struct store {
  uint32_t check;  /* of what has been written of this one */
  uint16_t size;   /* of a slot; 0 when nothing is kept */
  uint16_t slot;   /* where the next slot begins */
  uint16_t number; /* of the next writing */
  uint16_t at;     /* the next byte of this one, from 1; 0 when none is under way */
};

enum store_found {
  STORE_WHOLE,   /* the newest whole slot has been read */
  STORE_BLANK,   /* the memory is as it was made */
  STORE_DAMAGED, /* no slot is whole, or all are of another size */
  STORE_NO_ROOM
};

/* Reads the newest whole slot of so many bytes. Bytes may change even when there is none. */
enum store_found store_find(struct store *s, uint8_t *bytes, uint16_t count);

/* Begins to write. */
void store_begin(struct store *s);

/* Gives a writing up: its slot is not whole then. */
void store_stop(struct store *s);

/* Goes on with a writing, by one byte at most, and never waits. The bytes must stay the same until it returns 0,
 * which says that none is under way. */
uint8_t store_go_on(struct store *s, const uint8_t *bytes);

#endif
