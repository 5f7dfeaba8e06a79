/* A ring of slots in memory that wears; see store.h. */
#include "store.h"

#include "board.h"

/* CRC-32 as in ISO/IEC 8802-3, from all ones; over bytes and the complement of their check it is always WHOLE. */
#define WHOLE 0xDEBB20E3u

static uint32_t checked(uint32_t check, uint8_t byte) {
  uint8_t i;
  check ^= byte;
  for (i = 0; i < 8; i++) check = check & 1 ? check >> 1 ^ 0xEDB88320u : check >> 1;
  return check;
}

/* The next slot round the ring. */
static uint16_t behind(const struct store *s, uint16_t slot) {
  slot = (uint16_t)(slot + s->size);
  return (uint32_t)slot + s->size > board_room() ? 0 : slot;
}

/* 1 when a slot is whole; its number is told. */
static uint8_t is_whole(const struct store *s, uint16_t slot, uint16_t *number) {
  uint32_t check = 0xFFFFFFFFu;
  uint16_t i;
  for (i = 0; i < s->size; i++) check = checked(check, board_kept((uint16_t)(slot + i)));
  *number = (uint16_t)(board_kept(slot) | (uint16_t)board_kept((uint16_t)(slot + 1)) << 8);
  return check == WHOLE;
}

static uint8_t is_blank(void) {
  uint16_t at;
  for (at = 0; at < board_room(); at++)
    if (board_kept(at) != 0xFF) return 0;
  return 1;
}

enum store_found store_find(struct store *s, uint8_t *bytes, uint16_t count) {
  const uint32_t size = (uint32_t)count + STORE_BESIDE;
  uint16_t slot = 0, newest = 0, i;
  uint8_t found = 0;
  s->size = s->slot = s->number = s->at = 0;
  if (2 * size > board_room()) return STORE_NO_ROOM;
  s->size = (uint16_t)size;
  do {
    uint16_t number;
    /* Numbers wrap: the later of two is the one less than half way round from the other. */
    if (is_whole(s, slot, &number) && (!found || (uint16_t)(number - s->number) < 0x8000u)) {
      found = 1;
      newest = slot;
      s->number = number;
    }
    slot = behind(s, slot);
  } while (slot != 0);
  if (!found) return is_blank() ? STORE_BLANK : STORE_DAMAGED;
  for (i = 0; i < count; i++) bytes[i] = board_kept((uint16_t)(newest + 2 + i));
  s->number++;
  s->slot = behind(s, newest);
  return STORE_WHOLE;
}

void store_begin(struct store *s) {
  if (s->size == 0) return;
  s->at = 1;
  s->check = 0xFFFFFFFFu;
}

void store_stop(struct store *s) { s->at = 0; }

uint8_t store_go_on(struct store *s, const uint8_t *bytes) {
  const uint16_t at = s->at, left = (uint16_t)(s->size - at);
  uint8_t byte;
  if (at == 0) return 0;
  if (at <= 2)
    byte = (uint8_t)(at == 1 ? s->number : s->number >> 8);
  else if (left >= 4)
    byte = bytes[at - 3];
  else
    byte = (uint8_t)(~s->check >> 8 * (3 - left));
  if (!board_keep((uint16_t)(s->slot + at - 1), byte)) return 1;
  if (left >= 4) s->check = checked(s->check, byte);
  if (left > 0) {
    s->at++;
    return 1;
  }
  s->at = 0;
  s->number++;
  s->slot = behind(s, s->slot);
  return 0;
}
