/*
 * The firmware's parts on this machine.
 *
 *   halves   each line holds times between edges in microseconds, told to a new decoder; prints for each packet its
 *            bytes and how many times had been told
 *   lines    what is typed; prints what each line is
 *   cuts     tries every cut of power while states are kept, and prints how many; fails at the first that loses them
 *   wear     prints the most and the least writings of a byte after 1000 keepings
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "board.h"
#include "dcc.h"
#include "line.h"
#include "store.h"

static void halves(void) {
  static char text[1 << 16];
  while (fgets(text, sizeof text, stdin)) {
    struct dcc track;
    unsigned told = 0;
    const char *word = strtok(text, " \n");
    memset(&track, 0, sizeof track);
    for (; word; word = strtok(NULL, " \n")) {
      const uint8_t length = dcc_half(&track, (uint16_t)atoi(word));
      told++;
      for (uint8_t i = 0; i < length; i++) printf("%02X ", (unsigned)track.packet[i]);
      if (length > 0) printf("@%u ", told);
    }
    puts("");
  }
}

static void lines(void) {
  struct line line = {{0, 0}, 0, 0};
  int c;
  while ((c = getchar()) != EOF) {
    switch (line_take(&line, (char)c)) {
      case LINE_NONE: break;
      case LINE_WHOLE: printf("%u %u\n", (unsigned)line.numbers[0], (unsigned)line.numbers[1]); break;
      case LINE_WRONG: puts("wrong"); break;
    }
  }
}

/* ---- Memory that wears, and power that goes ---- */

enum { ROOM = 1024, COUNT = 20 };
static uint8_t memory[ROOM];
static unsigned long written[ROOM];
static uint16_t room;
static int power;  /* bytes that may still be written; -1 is any number */
static uint8_t torn;
static uint8_t busy;

uint16_t board_room(void) { return room; }

uint8_t board_kept(uint16_t at) {
  if (at >= room) exit(3);
  return memory[at];
}

uint8_t board_keep(uint16_t at, uint8_t byte) {
  if (at >= room) exit(3);
  busy ^= 1;
  if (busy) return 0;
  written[at]++;
  if (power == 0) return 0;
  memory[at] = power == 1 ? torn : byte; /* a byte cut short may hold anything */
  if (power > 0) power--;
  return 1;
}

static void fill(uint8_t *bytes, unsigned generation) {
  for (unsigned i = 0; i < COUNT; i++) bytes[i] = (uint8_t)(generation / 3 + (generation % 3) * i);
}

static void write_all(struct store *store, const uint8_t *bytes) {
  store_begin(store);
  for (unsigned turns = 0; store_go_on(store, bytes) && turns < 1000 && power != 0; turns++) continue;
}

static void expect(int holds, const char *what, unsigned generation, int cut) {
  if (holds) return;
  printf("%s, generation %u, cut %d, torn %u\n", what, generation, cut, (unsigned)torn);
  exit(1);
}

static void cuts(void) {
  static uint8_t before[ROOM];
  unsigned long tried = 0;
  struct store store;
  uint8_t bytes[COUNT], found[COUNT], old[COUNT];
  for (unsigned slots = 2; slots < 6; slots++) {
    room = (uint16_t)(slots * (COUNT + STORE_BESIDE) + slots);
    memset(memory, 0xFF, sizeof memory);
    power = -1;
    expect(store_find(&store, found, COUNT) == STORE_BLANK, "not blank", 0, 0);
    for (unsigned generation = 0; generation < 3 * slots; generation++) {
      fill(bytes, generation);
      fill(old, generation - 1);
      memcpy(before, memory, sizeof before);
      for (int cut = 0; cut <= COUNT + (int)STORE_BESIDE; cut++) {
        for (unsigned value = 0; value < 256; value++) {
          enum store_found how;
          memcpy(memory, before, sizeof memory);
          power = -1;
          store_find(&store, found, COUNT);
          power = cut;
          torn = (uint8_t)value;
          write_all(&store, bytes);
          power = -1;
          tried++;
          how = store_find(&store, found, COUNT);
          if (generation == 0 && how != STORE_WHOLE) {
            expect(how == STORE_BLANK || how == STORE_DAMAGED, "neither", generation, cut);
          } else {
            expect(how == STORE_WHOLE, "lost", generation, cut);
            expect(memcmp(found, bytes, COUNT) == 0 || (generation > 0 && memcmp(found, old, COUNT) == 0), "mixed",
                   generation, cut);
          }
          /* And what is kept next is found. */
          fill(bytes, generation + 100);
          write_all(&store, bytes);
          expect(store_find(&store, found, COUNT) == STORE_WHOLE && memcmp(found, bytes, COUNT) == 0, "not kept",
                 generation, cut);
          fill(bytes, generation);
        }
      }
      memcpy(memory, before, sizeof memory);
      store_find(&store, found, COUNT);
      write_all(&store, bytes);
    }
  }
  printf("%lu\n", tried);
}

static void wear(void) {
  struct store store;
  uint8_t bytes[COUNT];
  unsigned long least = 0, most = 0;
  room = ROOM;
  power = -1;
  memset(memory, 0xFF, sizeof memory);
  store_find(&store, bytes, COUNT);
  for (unsigned i = 0; i < 1000; i++) {
    fill(bytes, i);
    write_all(&store, bytes);
  }
  least = written[0];
  for (unsigned at = 0; at < ROOM / (COUNT + STORE_BESIDE) * (COUNT + STORE_BESIDE); at++) {
    if (written[at] > most) most = written[at];
    if (written[at] < least) least = written[at];
  }
  room = 2 * (COUNT + STORE_BESIDE) - 1;
  printf("%lu %lu %d\n", most, least, store_find(&store, bytes, COUNT) == STORE_NO_ROOM);
}

int main(int count, char **arguments) {
  if (count != 2) return 2;
  switch (arguments[1][0]) {
    case 'h': halves(); break;
    case 'l': lines(); break;
    case 'c': cuts(); break;
    case 'w': wear(); break;
    default: return 2;
  }
  return 0;
}
