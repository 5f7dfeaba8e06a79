/*
 * Cuts power at every byte that a new table erases or writes, in memory that erases from its first byte, or from its
 * last; the byte under way is left as noise. After each cut the board must come up with a whole table, and take the
 * new one when it is offered again.
 */
#include "mqtt_signals.c"

#include "junction.h"

#include <stdlib.h>

#define SLOT_BYTES (TABLE_ROOM + TABLE_SLOT_BESIDE)
#define NEVER 1000000000L

static uint8_t memory[TABLE_SLOTS][SLOT_BYTES], before[TABLE_SLOTS][SLOT_BYTES];
static long left, used; /* bytes until power fails, and since the start */
static int backwards;
static uint32_t noise = 1;

uint32_t board_millis(void) { return 0; }
void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) { (void)chain, (void)bytes, (void)count; }
uint8_t board_connect(void) { return 0; }
int32_t board_receive(uint8_t *bytes, uint16_t room) { (void)bytes, (void)room; return -1; }
uint8_t board_transmit(const uint8_t *bytes, uint16_t count) { (void)bytes, (void)count; return 0; }
void board_close(void) {}

static void change(uint8_t *byte, uint8_t to) {
  noise = noise * 1664525u + 1013904223u;
  used++;
  if (left == 0) return;
  *byte = --left == 0 ? (uint8_t)(noise >> 24) : to;
}

void board_slot_read(uint8_t slot, uint32_t at, uint8_t *bytes, uint16_t count) {
  memcpy(bytes, memory[slot] + at, count);
}

void board_slot_erase(uint8_t slot) {
  uint32_t i;
  for (i = 0; i < SLOT_BYTES; i++) change(&memory[slot][backwards ? SLOT_BYTES - 1 - i : i], 0xFF);
}

void board_slot_write(uint8_t slot, uint32_t at, const uint8_t *bytes, uint16_t count) {
  for (; count > 0; count--) change(&memory[slot][at++], *bytes++);
}

static void come_up(void) {
  static const struct mqtt_names who = {"bank", NULL, NULL};
  memset(sides, 0, sizeof sides);
  shown = coming = 0;
  newest = 0;
  mqtt_signals_begin(&who);
}

static void offer(const uint8_t *table, uint16_t length) {
  take_table(table, length);
  light(0);
}

static uint32_t installed(void) { return doublet_checksum(&sides[shown].signals); }

/* Offers a table with every cut; the memory holds the other one, or none. */
static void try_all(const uint8_t *table, uint16_t length, uint32_t old, uint32_t new) {
  long cut, most = 1, olds = 0;
  memcpy(before, memory, sizeof before);
  for (cut = 1; cut <= most; cut++) {
    memcpy(memory, before, sizeof memory);
    left = NEVER;
    come_up();
    left = cut;
    used = 0;
    offer(table, length);
    most = used + 1; /* the last is none */
    left = NEVER;
    come_up();
    if (installed() != old && installed() != new) {
      printf("cut %ld: up with %08lX: %s\n", cut, (unsigned long)installed(), reason);
      exit(1);
    }
    olds += installed() == old;
    offer(table, length);
    if (installed() != new || sides[shown].slot == BUILT_IN || strcmp(reason, "sound") != 0) {
      printf("cut %ld: offered again: %08lX %s\n", cut, (unsigned long)installed(), reason);
      exit(1);
    }
  }
  printf("the new one after %ld, the old one after %s\n", most - olds, olds > length ? "all others" : "few");
}

int main(void) {
  for (backwards = 0; backwards < 2; backwards++) {
    memset(memory, 0xFF, sizeof memory);
    /* None was kept; then the program's own is followed by the second of two; then a slot is used again. */
    try_all(junction_table, sizeof junction_table, BANK_CHECKSUM, JUNCTION_CHECKSUM);
    try_all(bank_table, sizeof bank_table, JUNCTION_CHECKSUM, BANK_CHECKSUM);
    try_all(junction_table, sizeof junction_table, BANK_CHECKSUM, JUNCTION_CHECKSUM);
    if (memory[0][0] != 3 || memory[1][0] != 2) return 1;
  }
  /* Both slots damaged. */
  memory[0][20] ^= 1;
  memory[1][20] ^= 1;
  come_up();
  printf("%s; %d\n", reason, installed() == BANK_CHECKSUM && sides[shown].slot == BUILT_IN);
  /* A whole slot whose table is not sound. */
  {
    uint8_t odd[sizeof junction_table];
    memcpy(odd, junction_table, sizeof odd);
    odd[40] ^= 1;
    table_slot_write(0, 9, odd, sizeof odd);
    table_slot_write(1, 8, junction_table, sizeof junction_table);
    come_up();
    printf("%s; %d\n", reason, installed() == JUNCTION_CHECKSUM && sides[shown].slot == 1);
  }
  return 0;
}
