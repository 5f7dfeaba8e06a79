/* Two slots for tables; see table_store.h. */
#include "table_store.h"

#include "doublet_reader.h"
#include "mqtt_board.h"

#define ERASED 0xFFFFFFFFu

static void put(uint8_t *p, uint32_t value) {
  uint8_t i;
  for (i = 0; i < 4; i++, value >>= 8) p[i] = (uint8_t)value;
}

static uint32_t get(const uint8_t *p) {
  return p[0] | (uint32_t)p[1] << 8 | (uint32_t)p[2] << 16 | (uint32_t)p[3] << 24;
}

static uint32_t sum_of(uint32_t sum, const uint8_t *bytes, uint32_t count) {
  for (; count > 0; count--) sum = doublet_sum(sum, *bytes++);
  return sum;
}

struct table_slot table_slot_read(uint8_t slot, uint8_t *bytes, uint16_t room) {
  struct table_slot found = {0, 0, 0};
  uint8_t head[8], check[4];
  uint32_t length;
  board_slot_read(slot, 0, head, sizeof head);
  length = get(head + 4);
  found.damaged = get(head) != ERASED || length != ERASED;
  if (length > room) return found; /* also that of an empty slot */
  board_slot_read(slot, sizeof head, bytes, (uint16_t)length);
  board_slot_read(slot, sizeof head + length, check, sizeof check);
  if (~sum_of(sum_of(0xFFFFFFFFu, head, sizeof head), bytes, length) != get(check)) return found;
  found.damaged = 0;
  found.number = get(head);
  found.length = (uint16_t)length;
  return found;
}

/* 1 when a slot holds these bytes from a place on. */
static uint8_t holds(uint8_t slot, uint32_t at, const uint8_t *bytes, uint32_t count) {
  uint8_t read;
  for (; count > 0; count--) {
    board_slot_read(slot, at++, &read, 1);
    if (read != *bytes++) return 0;
  }
  return 1;
}

uint8_t table_slot_write(uint8_t slot, uint32_t number, const uint8_t *bytes, uint16_t length) {
  uint8_t head[8], check[4];
  put(head, number);
  put(head + 4, length);
  put(check, ~sum_of(sum_of(0xFFFFFFFFu, head, sizeof head), bytes, length));
  board_slot_erase(slot);
  board_slot_write(slot, 0, head, sizeof head);
  board_slot_write(slot, sizeof head, bytes, length);
  board_slot_write(slot, sizeof head + length, check, sizeof check);
  return holds(slot, 0, head, sizeof head) && holds(slot, sizeof head, bytes, length) &&
         holds(slot, sizeof head + length, check, sizeof check);
}
