/*
 * Holds doublet_quiet against frames of every millisecond that follows. From standard input: u32 size and a table,
 * again and again; to standard output a line for each: how many answers were tried, how many of them were less than
 * 65,535, after how many of those the LEDs changed in that very millisecond, and how many were wrong.
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "doublet_reader.h"

enum { MOST_BYTES = 4 * 400, LONGEST = 2500, TRIES = 24 };

static uint8_t state[300 * DOUBLET_UNIT], kept[300 * DOUBLET_UNIT];
static uint8_t sent[MOST_BYTES], later[MOST_BYTES];
static unsigned tried, limited, exact, wrong;
static uint32_t seed;

static unsigned chance(unsigned many) {
  seed = seed * 1664525u + 1013904223u;
  return (seed >> 16) % many;
}

/* The bytes of a frame at a time, and how long it says they stay. */
static uint16_t frame(struct doublet *signals, uint8_t chain, uint32_t now, uint8_t *bytes) {
  struct doublet_frame frame;
  size_t at = 0;
  memset(bytes, 0, MOST_BYTES);
  doublet_begin(&frame, signals, chain, now);
  while (at + 4 <= MOST_BYTES) {
    const uint8_t count = doublet_next(&frame, bytes + at);
    if (count == 0) break;
    at += count;
  }
  return doublet_quiet(&frame);
}

static void commands(struct doublet *signals, uint32_t now) {
  unsigned i;
  for (i = chance(6); i > 0; i--) {
    const uint16_t unit = (uint16_t)chance(signals->units);
    doublet_set_approach(signals, unit, chance(4) > 0, now);
    if (chance(2)) doublet_set(signals, unit, (uint8_t)chance(32), now);
  }
  for (i = chance(40); i > 0; i--) {
    const uint8_t bus = (uint8_t)chance(2);
    uint16_t lowest, highest;
    doublet_range(signals, bus, &lowest, &highest);
    if (lowest > highest) continue;
    doublet_accessory(signals, bus, (uint16_t)(lowest + chance(highest - lowest + 1u)), (uint8_t)chance(2), now);
    doublet_extended(signals, bus, (uint16_t)(lowest + chance(highest - lowest + 1u)), (uint8_t)chance(32), now);
  }
  doublet_set_night(signals, (uint8_t)chance(2));
  doublet_set_test(signals, chance(20) == 0 && signals->colours > 0);
}

/* Frames from what is remembered behind the first one: none of them is told of by another. */
static void hold(struct doublet *signals, uint8_t chain, uint32_t now) {
  const uint16_t quiet = frame(signals, chain, now, sent);
  const size_t bytes = signals->units * (size_t)DOUBLET_UNIT;
  unsigned i;
  memcpy(kept, state, bytes);
  tried++;
  for (i = 1; i < quiet && i < LONGEST; i++) {
    memcpy(state, kept, bytes);
    frame(signals, chain, now + i, later);
    if (memcmp(sent, later, MOST_BYTES) != 0) {
      wrong++;
      break;
    }
  }
  if (quiet < LONGEST) {
    limited++;
    memcpy(state, kept, bytes);
    frame(signals, chain, now + quiet, later);
    exact += memcmp(sent, later, MOST_BYTES) != 0;
  }
  memcpy(state, kept, bytes);
}

int main(void) {
  uint8_t head[4];
  while (fread(head, 1, 4, stdin) == 4) {
    const size_t size = head[0] | (size_t)head[1] << 8;
    uint8_t *table = malloc(size);
    struct doublet signals;
    unsigned i, chain;
    if (!table || fread(table, 1, size, stdin) != size) return 1;
    if (doublet_open(&signals, table, size, state, sizeof state) != DOUBLET_OK) return 1;
    tried = limited = exact = wrong = 0;
    seed = (uint32_t)size;
    for (i = 0; signals.units > 0 && i < TRIES; i++) {
      const uint32_t now = 100000u + 7001u * i;
      commands(&signals, now);
      for (chain = 0; chain < signals.chains; chain++) hold(&signals, (uint8_t)chain, now + chance(700));
    }
    printf("%u %u %u %u\n", tried, limited, exact, wrong);
    free(table);
  }
  return 0;
}
