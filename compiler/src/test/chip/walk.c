/*
 * Walks over the tables of tables.h: calls of every sort by a row of random numbers, then all that they left. For
 * each table it prints its number, why it was refused (0: it was not) and a checksum of all that calls gave.
 */
#include "doublet_reader.h"

#include "board.h"

#ifdef __AVR__
#define FLASH PROGMEM
#else
#define FLASH
#endif
#include "tables.h" /* TABLES(X): X(number, topic) of bytes_number */

enum { STEPS = 160, MOST_CHAINS = 4, MOST_LEDS = 200 };

static const struct {
  const uint8_t *bytes;
  uint16_t size;
  const char *topic;
} tables[] = {
#define TABLE(number, topic) {bytes_##number, sizeof bytes_##number, topic},
    TABLES(TABLE)};

static uint8_t state[800];
static uint8_t saved[200];
static uint32_t sum, seed;

static void put8(uint8_t byte) { sum = doublet_sum(sum, byte); }

static void put16(uint16_t number) {
  put8((uint8_t)number);
  put8((uint8_t)(number >> 8));
}

static uint16_t chance(void) {
  seed = seed * 1664525u + 1013904223u;
  return (uint16_t)(seed >> 16);
}

static uint16_t at(const uint8_t *table, uint16_t place) {
  return (uint16_t)(DOUBLET_BYTE(table + place) | DOUBLET_BYTE(table + place + 1) << 8);
}

static void command(struct doublet *signals, const uint8_t *table, uint16_t size, const char *topic, uint8_t bus,
                    uint8_t step, uint32_t now) {
  const uint16_t record = (uint16_t)(30 + 11 * bus), one = chance(), other = chance();
  const uint8_t carries = DOUBLET_BYTE(table + record) & 3;
  if (carries == 0) {
    uint16_t lowest, highest, address = one & 2047;
    doublet_range(signals, bus, &lowest, &highest);
    if (lowest <= highest) address = (uint16_t)(lowest + one % (highest - lowest + 1u));
    if (step % 32 > 28) address = 2047;
    put16(doublet_accessory(signals, bus, address, other & 1, now));
    put16(doublet_extended(signals, bus, address, other >> 1 & 31, now));
  } else if (carries == 1) {
    const char digit = (char)('0' + one % 10);
    put16(doublet_topic(signals, bus, topic, strlen(topic), &digit, 1, now));
  } else {
    const uint16_t records = at(table, (uint16_t)(record + 8));
    const uint32_t place = at(table, (uint16_t)(record + 6)) + (records ? 14u * (one % records) : 0u);
    uint64_t event = other & 3;
    uint8_t i;
    if (records > 0 && place + 8 <= size) {
      uint64_t key = 0;
      for (i = 8; i > 0; i--) key = key << 8 | DOUBLET_BYTE(table + place + i - 1);
      event += key;
    }
    put16(doublet_event(signals, bus, event, now));
  }
}

static void frames(struct doublet *signals, uint32_t now) {
  struct doublet_frame frame;
  uint8_t chain, led[4], count, i, leds;
  for (chain = 0; chain < signals->chains && chain < MOST_CHAINS; chain++) {
    doublet_begin(&frame, signals, chain, now);
    for (leds = 0; leds < MOST_LEDS && (count = doublet_next(&frame, led)) > 0; leds++)
      for (i = 0; i < count; i++) put8(led[i]);
  }
}

static void walk(struct doublet *signals, const uint8_t *table, uint16_t size, const char *topic) {
  uint32_t now = 1000;
  uint8_t step;
  size_t count, i;
  for (step = 0; step < STEPS; step++) {
    now += 1u + (chance() & 63u);
    if (signals->buses > 0) command(signals, table, size, topic, step % signals->buses, step, now);
    if (signals->units > 0) {
      const uint16_t unit = chance() % signals->units, number = chance();
      if (step % 8 == 0) doublet_set_approach(signals, unit, number & 1, now);
      if (step % 8 == 4) put8(doublet_set(signals, unit, number & 15, now));
      put8(doublet_aspect(signals, unit, now));
    }
    if (step % 16 == 15) {
      doublet_set_night(signals, step >> 4 & 1);
      doublet_set_test(signals, step == 79 && signals->colours > 0);
      frames(signals, now);
    }
  }
  count = doublet_save(signals, saved, sizeof saved);
  for (i = 0; i < count; i++) put8(saved[i]);
}

int main(void) {
  struct doublet signals;
  uint8_t i;
  for (i = 0; i < sizeof tables / sizeof *tables; i++) {
    const uint8_t reason = (uint8_t)doublet_open(&signals, tables[i].bytes, tables[i].size, state, sizeof state);
    sum = 0xFFFFFFFFu;
    seed = i;
    if (reason == DOUBLET_OK) walk(&signals, tables[i].bytes, tables[i].size, tables[i].topic);
    board_hex(i, 2);
    board_put(' ');
    board_hex(reason, 1);
    board_put(' ');
    board_hex(~sum, 8);
    board_put('\n');
  }
  board_stop();
  return 0;
}
