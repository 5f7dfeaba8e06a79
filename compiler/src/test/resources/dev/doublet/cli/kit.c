/*
 * A computer as the kit of wifi_board.c. The port of the broker stands in the variable PORT; sixteen bits of SPI are a
 * line of the standard output, their chain before them; flash is memory, whose bits a writing only clears.
 */
#define _POSIX_C_SOURCE 200112L

#include "kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define FLASH 0x10000u

const char *kit_port;
static uint8_t flash[FLASH];

void kit_begin(void) {
  kit_port = getenv("PORT");
  memset(flash, 0xFF, sizeof flash);
}

uint32_t kit_millis(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (uint32_t)t.tv_sec * 1000u + (uint32_t)(t.tv_nsec / 1000000);
}

void kit_rest(void) {
  const struct timespec millisecond = {0, 1000000};
  fflush(stdout);
  nanosleep(&millisecond, NULL);
}

void kit_spi(uint8_t chain, uint16_t sixteen) { printf("%u %04X\n", (unsigned)chain, (unsigned)sixteen); }

void kit_flash_read(uint32_t at, uint8_t *bytes, uint32_t count) { memcpy(bytes, flash + at, count); }

void kit_flash_erase(uint32_t at, uint32_t count) { memset(flash + at, 0xFF, count); }

void kit_flash_write(uint32_t at, const uint8_t *bytes, uint32_t count) {
  for (; count > 0; count--) flash[at++] &= *bytes++;
}
