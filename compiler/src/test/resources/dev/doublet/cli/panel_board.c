/*
 * A board for examples/firmware/panel.c whose switches do what is typed: lines of milliseconds, a switch, and 0 or 1. It
 * prints the bytes of frames that differ from those before: milliseconds, chain, bytes in hexadecimal.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "board.h"

uint8_t board_contact(uint16_t number);

static uint32_t time, next_at;
static unsigned next_number, next_closed;
static uint8_t closed[17], waiting;

void board_begin(void) {}

uint32_t board_millis(void) {
  time++;
  for (;;) {
    if (!waiting && scanf("%u %u %u", (unsigned *)&next_at, &next_number, &next_closed) != 3) {
      static uint32_t end;
      if (end == 0) end = time + 200;
      if (time >= end) exit(0);
      return time;
    }
    waiting = next_at > time;
    if (waiting) return time;
    if (next_number <= 16) closed[next_number] = (uint8_t)next_closed;
  }
}

uint8_t board_contact(uint16_t number) { return closed[number]; }

void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) {
  static uint8_t before[4][600];
  if (memcmp(before[chain], bytes, count) == 0) return;
  memcpy(before[chain], bytes, count);
  printf("%u %u ", (unsigned)time, (unsigned)chain);
  while (count-- > 0) printf("%02X", (unsigned)*bytes++);
  putchar('\n');
}
