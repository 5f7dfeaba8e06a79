/*
 * Flips each bit of a table, each two bits of it, and 100,000 bursts of 3 to 32 bits, and opens each; prints how many
 * were opened all the same. The table is read from standard input.
 */
#include <stdio.h>
#include <string.h>

#include "doublet_reader.h"

static uint8_t table[65536], state[65536];
static size_t size;
static unsigned long tried, opened;

static void flip(size_t bit) { table[bit / 8] ^= (uint8_t)(1 << bit % 8); }

static void open(void) {
  struct doublet signals;
  tried++;
  if (doublet_open(&signals, table, size, state, sizeof state) == DOUBLET_OK) opened++;
}

int main(void) {
  uint32_t seed = 1;
  size = fread(table, 1, sizeof table, stdin);
  open();
  if (opened != 1) return 1;
  opened = 0;
  for (size_t first = 0; first < 8 * size; first++) {
    flip(first);
    open();
    for (size_t second = first + 1; second < 8 * size; second++) {
      flip(second);
      open();
      flip(second);
    }
    flip(first);
  }
  for (int i = 0; i < 100000; i++) {
    uint8_t kept[5];
    seed = seed * 1664525u + 1013904223u;
    const size_t length = 3 + (seed >> 16) % 30, start = (size_t)((uint64_t)seed * 2654435761u >> 16) % (8 * size - length);
    memcpy(kept, table + start / 8, 5);
    flip(start);
    flip(start + length - 1); /* a burst is as long as the bits at its ends say */
    for (size_t bit = start + 1; bit < start + length - 1; bit++) {
      seed = seed * 1664525u + 1013904223u;
      if (seed >> 31) flip(bit);
    }
    open();
    memcpy(table + start / 8, kept, 5);
  }
  printf("%lu damaged tables of %zu bytes, %lu opened\n", tried - 1, size, opened);
  return opened > 0;
}
