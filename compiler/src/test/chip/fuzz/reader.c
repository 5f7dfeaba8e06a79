/*
 * Calls of the reader on tables that a fuzzer makes up, for its sanitizers to watch. The fuzzer knows nothing of
 * checksums, so the first bytes, the length and the checksum are put right here; all else is as it comes. Calls
 * stand before the table, eight bytes each, and one of them flips a bit of the table that is open.
 *
 * Table and state lie in buffers of their exact sizes, so that a step outside is seen.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "doublet_reader.h"

/* A fuzzer cannot find what a checksum is of, so some topics that tables have are known. */
static const char *const TOPICS[] = {"", "123456789", "brackwater/signals/K1", "brackwater/signals/K2"};

enum { CALLS = 12, CALL = 8, MOST_UNITS = 300, MOST_LEDS = 400 };

static void seal(uint8_t *table, size_t size) {
  uint32_t sum = 0xFFFFFFFFu;
  size_t i;
  memcpy(table, "DBLT\3", 5);
  table[5] &= DOUBLET_KNOWN | 1u; /* settling may be left out, which is refused */
  table[6] = (uint8_t)size;
  table[7] = (uint8_t)(size >> 8);
  for (i = 0; i < size - 4; i++) sum = doublet_sum(sum, table[i]);
  sum = ~sum;
  for (i = size - 4; i < size; i++, sum >>= 8) table[i] = (uint8_t)sum;
}

static void frame(struct doublet *signals, uint8_t chain, uint32_t now) {
  struct doublet_frame frame;
  uint8_t *led = malloc(4);
  int leds = 0;
  doublet_begin(&frame, signals, chain, now);
  while (leds++ < MOST_LEDS && doublet_next(&frame, led) > 0) {
  }
  doublet_quiet(&frame);
  free(led);
}

static void call(struct doublet *signals, const uint8_t *call, uint8_t *table, size_t size) {
  const uint16_t wide = (uint16_t)(call[2] | call[3] << 8);
  const uint32_t now = wide * (uint32_t)call[4];
  const uint8_t bus = call[1] & 3;
  uint8_t bytes[MOST_UNITS + DOUBLET_SAVED];
  struct doublet_servo servo = {(uint16_t)(call[5] | call[6] << 8), call[7]};
  uint16_t lowest, highest;
  uint64_t event = 0;
  size_t saved, at;
  switch (call[0] % 16) {
    case 0:
    case 1: /* mostly an address of the bus */
      doublet_range(signals, bus, &lowest, &highest);
      if (lowest < 2048) lowest = (uint16_t)(lowest + wide);
      if (call[0] & 1)
        doublet_extended(signals, bus, lowest, call[4], now);
      else
        doublet_accessory(signals, bus, lowest, call[4], now);
      break;
    case 2: doublet_extended(signals, bus, 2047, call[4], now); break;
    case 3: { /* mostly accessory packets with a right error byte */
      const size_t length = 3 + (call[1] >> 7);
      memcpy(bytes, call + 2, length);
      if (call[1] & 0x40) {
        bytes[0] = (uint8_t)(0x80 | (bytes[0] & 0x3F));
        bytes[1] = (uint8_t)(length == 3 ? bytes[1] | 0x88 : (bytes[1] & 0x70) | 1);
        bytes[length - 1] = (uint8_t)(bytes[0] ^ bytes[1] ^ (length == 4 ? bytes[2] : 0));
      }
      doublet_packet(signals, bus, bytes, length, now);
      break;
    }
    case 4:
    case 5: /* payloads that are numbers, too */
      memcpy(bytes, call + 3, 5);
      if (call[0] & 1) bytes[0] = (uint8_t)('0' + call[3] % 10);
      doublet_topic(signals, bus, TOPICS[call[2] % 4], strlen(TOPICS[call[2] % 4]), (const char *)bytes, call[1] >> 4 & 3, now);
      break;
    case 6:
      memcpy(&event, call + 1, 7);
      doublet_event(signals, bus, event, now);
      break;
    case 7: /* one near an event of the bus, if it lies where it should */
      at = size > 40u + 11 * bus ? table[36 + 11 * bus] | table[37 + 11 * bus] << 8 : 0;
      if (at > 0 && table[38 + 11 * bus] > 0) at += 14 * (wide % table[38 + 11 * bus]);
      if (at + 8 <= size) memcpy(&event, table + at, 8);
      doublet_event(signals, bus, event + call[4] % 32, now);
      break;
    case 8: doublet_aspect(signals, wide, now); break;
    case 9: doublet_set(signals, call[2], call[3], now); break;
    case 10: doublet_set_approach(signals, call[2], call[3] & 1, now); break;
    case 11:
      saved = doublet_save(signals, bytes, sizeof bytes);
      if (call[1] & 1 && saved > 0) bytes[wide % saved] ^= call[4];
      doublet_restore(signals, bytes, saved);
      break;
    case 12: frame(signals, call[1] & 3, wide * (uint32_t)call[4] + call[5]); break;
    case 13: {
      uint8_t *line = malloc(wide % 600 + 1u);
      doublet_leds(signals, bus, now, line, wide % 600);
      free(line);
      break;
    }
    case 14:
      doublet_set_night(signals, call[1]);
      doublet_set_test(signals, call[2]);
      doublet_range(signals, bus, &lowest, &highest);
      doublet_channel(signals, call[3]);
      doublet_pulse(signals, call[3], &servo, now);
      doublet_checksum(signals);
      doublet_units(signals);
      break;
    case 15: table[wide % size] ^= (uint8_t)(1 << (call[4] & 7)); break;
  }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct doublet signals;
  uint8_t *table, *state;
  size_t length, units, memory, i;
  enum doublet_reason reason;
  if (size < 1 + CALLS * CALL) return 0;
  length = size - 1 - CALLS * CALL;
  if (length > 65535) length = 65535;
  table = malloc(length + 1);
  memcpy(table, data + 1 + CALLS * CALL, length);
  if (length >= 34 && data[0] != 0) seal(table, length);
  units = length >= 34 ? table[10] | (size_t)table[11] << 8 : 0;
  memory = (units > MOST_UNITS ? MOST_UNITS : units) * DOUBLET_UNIT - (data[0] == 1 && units > 0);
  state = malloc(memory + 1);
  /* No byte lies behind the table or the state. */
  table = realloc(table, length ? length : 1);
  state = realloc(state, memory ? memory : 1);
  reason = doublet_open(&signals, table, length, state, memory);
#ifdef DOUBLET_WORDS
  if (strlen(doublet_reason_words(reason)) == 0) abort();
#endif
  if ((reason == DOUBLET_OK) != (signals.units > 0 || (reason == DOUBLET_OK && units == 0))) abort();
  if (length > 0)
    for (i = 0; i < CALLS; i++) call(&signals, data + 1 + i * CALL, table, length);
  free(table);
  free(state);
  return 0;
}

#ifdef REPLAY
int main(int count, char **files) {
  static uint8_t data[65536 + 256];
  for (int i = 1; i < count; i++) {
    FILE *file = fopen(files[i], "rb");
    if (!file) return 1;
    LLVMFuzzerTestOneInput(data, fread(data, 1, sizeof data, file));
    fclose(file);
  }
  return 0;
}
#endif
