/*
 * Runs the reader on a computer, for tests. Each request on standard input is a u32 length and as
 * many bytes: u32 table size, the table, and commands to the end. Each answer on standard output
 * is as many bytes as the request calls for. Numbers are little-endian. Buffers are exactly as long as what they
 * hold, so that a checker of memory sees any step outside.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "doublet_reader.h"

static const uint8_t *at;
static uint8_t *said;
static size_t said_size, said_room;

static uint32_t number(int bytes) {
  uint32_t value = 0;
  for (int i = 0; i < bytes; i++) value |= (uint32_t)*at++ << 8 * i;
  return value;
}

static uint8_t *copy(size_t size) {
  uint8_t *bytes = malloc(size ? size : 1);
  if (!bytes) exit(1);
  memcpy(bytes, at, size);
  at += size;
  return bytes;
}

static void say(const uint8_t *bytes, size_t size) {
  if (said_size + size > said_room) {
    said_room = 2 * (said_size + size);
    said = realloc(said, said_room);
    if (!said) exit(1);
  }
  memcpy(said + said_size, bytes, size);
  said_size += size;
}

static void answer(uint32_t value, int bytes) {
  for (int i = 0; i < bytes; i++) {
    const uint8_t byte = (uint8_t)(value >> 8 * i);
    say(&byte, 1);
  }
}

static void command(struct doublet *d) {
  const uint8_t what = (uint8_t)number(1), where = (uint8_t)number(1);
  const uint32_t now = number(4);
  if (what == 'p') {
    const size_t size = number(1);
    uint8_t *packet = copy(size);
    answer(doublet_packet(d, where, packet, size, now), 2);
    free(packet);
  } else if (what == 'b') {
    const uint16_t address = (uint16_t)number(2);
    answer(doublet_accessory(d, where, address, (uint8_t)number(1), now), 2);
  } else if (what == 'x') {
    const uint16_t address = (uint16_t)number(2);
    answer(doublet_extended(d, where, address, (uint8_t)number(1), now), 2);
  } else if (what == 't') {
    const size_t topic_size = number(1), payload_size = number(1);
    uint8_t *topic = copy(topic_size), *payload = copy(payload_size);
    answer(doublet_topic(d, where, (char *)topic, topic_size, (char *)payload, payload_size, now), 2);
    free(topic);
    free(payload);
  } else if (what == 'e') {
    const uint64_t low = number(4);
    answer(doublet_event(d, where, low | (uint64_t)number(4) << 32, now), 2);
  } else if (what == 'n') {
    doublet_set_night(d, where);
  } else if (what == 'd') {
    doublet_set_approach(d, (uint16_t)number(2), where, now);
  } else if (what == 'l') {
    const size_t size = number(4);
    uint8_t *bytes = malloc(size ? size : 1);
    if (!bytes) exit(1);
    const size_t written = doublet_leds(d, where, now, bytes, size);
    answer((uint32_t)written, 4);
    say(bytes, written);
    free(bytes);
  } else if (what == 'a') {
    for (uint16_t i = 0; i < doublet_units(d); i++) answer(doublet_aspect(d, i, now), 1);
  } else if (what == 'm') {
    say(d->state, DOUBLET_UNIT * doublet_units(d));
  } else if (what == 'y') {
    doublet_set_test(d, where);
  } else if (what == 'u') {
    const uint16_t unit = (uint16_t)number(2);
    answer(doublet_set(d, unit, where, now), 1);
  } else if (what == 'r') {
    uint16_t lowest, highest;
    doublet_range(d, where, &lowest, &highest);
    answer(lowest, 2);
    answer(highest, 2);
  } else if (what == 'q') {
    struct doublet_frame frame;
    uint8_t bytes[4];
    doublet_begin(&frame, d, where, now);
    while (doublet_next(&frame, bytes)) {
    }
    answer(doublet_quiet(&frame), 2);
  } else if (what == 'k') {
    const size_t size = doublet_units(d) + (size_t)DOUBLET_SAVED;
    uint8_t *bytes = malloc(size);
    if (!bytes) exit(1);
    const size_t saved = doublet_save(d, bytes, size);
    answer((uint32_t)saved, 4);
    say(bytes, saved);
    free(bytes);
  } else if (what == 'v') {
    const size_t size = number(4);
    uint8_t *bytes = copy(size);
    answer(doublet_restore(d, bytes, size), 1);
    free(bytes);
  } else if (what == 's') {
    const size_t size = number(1);
    uint8_t *bytes = copy(size);
    answer(doublet_sum_of((char *)bytes, 0, size, where), 4);
    free(bytes);
  } else {
    exit(2);
  }
}

int main(void) {
  uint8_t length[4];
  while (fread(length, 1, 4, stdin) == 4) {
    at = length;
    const size_t size = number(4);
    uint8_t *request = malloc(size);
    if (!request || fread(request, 1, size, stdin) != size) return 1;
    at = request;
    const size_t table_size = number(4);
    uint8_t *table = copy(table_size);
    const size_t state_size = table_size < 12 ? 0 : DOUBLET_UNIT * (table[10] + 256u * table[11]);
    uint8_t *state = malloc(state_size ? state_size : 1);
    struct doublet d;
    answer(doublet_open(&d, table, table_size, state, state_size), 1);
    while (at < request + size) command(&d);
    const size_t answer_size = said_size;
    answer((uint32_t)answer_size, 4);
    fwrite(said + answer_size, 1, 4, stdout);
    fwrite(said, 1, answer_size, stdout);
    fflush(stdout);
    said_size = 0;
    free(state);
    free(table);
    free(request);
  }
  return 0;
}
