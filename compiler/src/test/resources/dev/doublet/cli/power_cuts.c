/*
 * Lives of the firmware, each a process that power cuts short; what outlasts them is memory that they share. In the first
 * Y1 is set and kept; in the second it is set again, and power fails at the Nth byte that is written then, which is left
 * as noise. In the third it must be as in the first or in the second. A change within the writing must give that up.
 *
 * Prints how often it was as in the first, as in the second, and as in neither, and what the third said.
 */
#define _DEFAULT_SOURCE
#define main firmware
#include "signals.c"
#undef main

#include <stdio.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

static struct outlasting {
  uint8_t memory[128], leds[64], first[64], second[64];
  char said[200];
  unsigned written; /* bytes in this life */
} *kept_over;

static struct life {
  uint32_t end, set_at, again_at;
  uint8_t value, again;
  unsigned cut; /* the byte at which power fails; 0 for none */
} life;

static uint32_t time_now, busy_until;
static uint16_t sent_so_far, said_so_far;

void board_begin(void) {
  memset(kept_over->said, 0, sizeof kept_over->said);
  kept_over->written = 0;
}

uint32_t board_millis(void) {
  if (++time_now >= life.end) _exit(0);
  return time_now;
}

/* The extended packet that answers lists for address 1. */
static uint8_t packet_of(uint8_t value, uint8_t packet[6]) {
  packet[0] = 0x81;
  packet[1] = 0x71;
  packet[2] = value;
  packet[3] = (uint8_t)(0xF0 ^ value);
  return 4;
}

uint8_t board_packet(uint8_t packet[6]) {
  if (life.set_at && time_now >= life.set_at) {
    life.set_at = 0;
    return packet_of(life.value, packet);
  }
  if (life.again_at && time_now >= life.again_at) {
    life.again_at = 0;
    return packet_of(life.again, packet);
  }
  return 0;
}

void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) {
  (void)chain;
  sent_so_far = count < sizeof kept_over->leds ? count : (uint16_t)sizeof kept_over->leds;
  memcpy(kept_over->leds, bytes, sent_so_far);
}

void board_send_two(uint8_t chain, const uint8_t *bytes, const uint8_t *beside, uint16_t count) {
  (void)beside;
  board_send(chain, bytes, count);
}

uint8_t board_pressed(void) { return 0; }
char board_typed(void) { return 0; }

uint8_t board_print(char c) {
  if (said_so_far + 1u < sizeof kept_over->said) kept_over->said[said_so_far++] = c;
  return 1;
}

uint16_t board_room(void) { return sizeof kept_over->memory; }
uint8_t board_kept(uint16_t at) { return kept_over->memory[at]; }

uint8_t board_keep(uint16_t at, uint8_t byte) {
  if (time_now < busy_until) return 0;
  if (kept_over->memory[at] == byte) return 1;
  busy_until = time_now + 4;
  kept_over->memory[at] = byte;
  if (++kept_over->written == life.cut) {
    kept_over->memory[at] = (uint8_t)(0x6D * life.cut);
    _exit(0);
  }
  return 1;
}

static void live(uint32_t end, uint32_t set_at, uint8_t value, uint32_t again_at, uint8_t again, unsigned cut) {
  int status;
  if (fork() == 0) {
    life.end = end;
    life.set_at = set_at;
    life.value = value;
    life.again_at = again_at;
    life.again = again;
    life.cut = cut;
    firmware();
  }
  if (wait(&status) < 0 || status != 0) _exit(1);
}

int main(void) {
  unsigned cut, as_first = 0, as_second = 0, as_neither = 0, bytes = 0;
  uint8_t before[128];
  kept_over = mmap(NULL, sizeof *kept_over, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  memset(kept_over->memory, 0xFF, sizeof kept_over->memory);
  live(12000, 1000, 4, 0, 0, 0);
  memcpy(kept_over->first, kept_over->leds, 64);
  memcpy(before, kept_over->memory, sizeof before);
  for (cut = 0; cut == 0 || cut <= bytes; cut++) {
    memcpy(kept_over->memory, before, sizeof before);
    live(12000, 1000, 5, 0, 0, cut);
    if (cut == 0) {
      memcpy(kept_over->second, kept_over->leds, 64);
      bytes = kept_over->written;
    }
    live(2000, 0, 0, 0, 0, 0);
    if (memcmp(kept_over->leds, kept_over->first, 64) == 0) as_first++;
    else if (memcmp(kept_over->leds, kept_over->second, 64) == 0) as_second++;
    else as_neither++;
    if (strcmp(kept_over->said, "as before power was lost\r\n") != 0) printf("cut %u: %s", cut, kept_over->said);
  }
  printf("%u bytes: first %u, second %u, neither %u\n", bytes, as_first, as_second, as_neither);

  /* Set again 30 ms after the writing began: what was kept stays, and a minute later the newest is. */
  memcpy(kept_over->memory, before, sizeof before);
  live(12000, 1000, 5, 11030, 4, 0);
  printf("%u bytes, ", kept_over->written);
  live(2000, 0, 0, 0, 0, 0);
  printf("%s: %s", memcmp(kept_over->leds, kept_over->first, 64) == 0 ? "first" : "another", kept_over->said);
  memcpy(kept_over->memory, before, sizeof before);
  live(80000, 1000, 4, 11030, 5, 0);
  live(2000, 0, 0, 0, 0, 0);
  printf("%s: %s", memcmp(kept_over->leds, kept_over->second, 64) == 0 ? "second" : "another", kept_over->said);
  return 0;
}
