/*
 * Flips each bit of a table, each two bits of it, and 100,000 bursts of 3 to 32 bits; prints how many were opened all
 * the same. The table is read from standard input.
 *
 * Each bit and each burst is opened. Of the pairs one in 997 is opened, or each with an argument, which takes minutes; of
 * all the checksum is worked out: as it is a remainder, what two flips make of it is the exclusive-or of what each does.
 */
#include <stdio.h>
#include <string.h>

#include "doublet_reader.h"

static uint8_t table[65536], state[65536];
static size_t size;
static uint32_t made[8 * sizeof table]; /* what a flip makes of the checksum */
static unsigned long tried, opened, worked_out;

static void flip(size_t bit) { table[bit / 8] ^= (uint8_t)(1 << bit % 8); }

static void open(void) {
  struct doublet signals;
  tried++;
  if (doublet_open(&signals, table, size, state, sizeof state) == DOUBLET_OK) opened++;
}

static uint32_t remainder_of(void) {
  uint32_t sum = 0xFFFFFFFFu;
  for (size_t i = 0; i < size; i++) sum = doublet_sum(sum, table[i]);
  return sum;
}

int main(int count, char **arguments) {
  (void)arguments;
  const size_t each = count > 1 ? 1 : 997;
  uint32_t seed = 1;
  size = fread(table, 1, sizeof table, stdin);
  open();
  if (opened != 1) return 1;
  opened = 0;
  const uint32_t right = remainder_of();
  for (size_t first = 0; first < 8 * size; first++) {
    flip(first);
    open();
    made[first] = remainder_of() ^ right;
    for (size_t second = 0; second < first; second++) {
      worked_out++;
      if (made[first] == made[second]) opened++;
      if (worked_out % each != 0) continue;
      flip(second);
      open();
      if (remainder_of() != (right ^ made[first] ^ made[second])) return 1;
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
  printf("%lu damaged tables of %zu bytes, and the checksums of %lu; opened: %lu\n", tried - 1, size, worked_out, opened);
  return opened > 0;
}
