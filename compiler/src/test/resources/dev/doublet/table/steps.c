/*
 * How many bytes of a table the calls of the reader read at most: every loop of the reader reads some in each round.
 * From standard input: u32 size and a table, again and again; to standard output a line for each: reason, units, and
 * the most reads of opening, of a command, of the beginning of a frame, of an LED and of a question.
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

static uint64_t reads;
static uint8_t read_byte(const uint8_t *p) {
  reads++;
  return *p;
}
#define DOUBLET_BYTE(p) read_byte(p)
#include "doublet_reader.h"

static uint64_t since(uint64_t *most) {
  if (reads > *most) *most = reads;
  reads = 0;
  return *most;
}

int main(void) {
  static uint8_t bytes[65536], state[8192 * 3];
  uint8_t head[4];
  while (fread(head, 1, 4, stdin) == 4) {
    const size_t size = head[0] | (size_t)head[1] << 8 | (size_t)head[2] << 16;
    uint8_t *table = malloc(size);
    struct doublet signals;
    struct doublet_frame frame;
    uint64_t open = 0, command = 0, begin = 0, led = 0, question = 0;
    if (!table || size > sizeof bytes || fread(table, 1, size, stdin) != size) return 1;
    reads = 0;
    const int reason = doublet_open(&signals, table, size, state, sizeof state);
    since(&open);
    for (unsigned bus = 0; bus < signals.buses && bus < 3; bus++) {
      const unsigned record = 30 + 11 * bus;
      const unsigned addresses[] = {0, 5, 600, 2046, 2047};
      for (unsigned i = 0; i < 5; i++) {
        doublet_accessory(&signals, (uint8_t)bus, (uint16_t)addresses[i], 1, 20000 * i);
        since(&command);
        doublet_extended(&signals, (uint8_t)bus, (uint16_t)addresses[i], 255, 20000 * i);
        since(&command);
      }
      uint64_t event = 0;
      const size_t index = (size_t)table[record + 6] | (size_t)table[record + 7] << 8;
      if (index + 8 <= size) memcpy(&event, table + index, 8);
      for (unsigned i = 0; i < 300; i += 50) {
        doublet_event(&signals, (uint8_t)bus, event + i, 0);
        since(&command);
      }
      doublet_topic(&signals, (uint8_t)bus, "", 0, "1", 1, 0);
      since(&command);
    }
    for (unsigned chain = 0; chain < signals.chains && chain < 3; chain++) {
      doublet_begin(&frame, &signals, (uint8_t)chain, 123456789);
      since(&begin);
      while (doublet_next(&frame, bytes) > 0) since(&led);
      since(&led);
    }
    if (signals.units > 0) {
      doublet_aspect(&signals, (uint16_t)(signals.units - 1), 0);
      since(&question);
    }
    printf("%d %u %llu %llu %llu %llu %llu\n", reason, signals.units, (unsigned long long)open, (unsigned long long)command,
           (unsigned long long)begin, (unsigned long long)led, (unsigned long long)question);
    free(table);
  }
  return 0;
}
