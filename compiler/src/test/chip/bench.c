/*
 * What the reader costs on one table: each call is marked, and the board or its simulator keeps the largest and the
 * mean. All addresses are tried, on a table whose signals have come to many states. The table is c.h's.
 */
#include "doublet_reader.h"

#include "c.h"

#include "board.h"

static uint8_t state[C_STATE_BYTES];
static volatile uint8_t result;

/* The commands of all addresses; the ones for every unit are no command's worst case, and are measured alone. */
static void commands(struct doublet *signals) {
  uint16_t address;
  uint8_t value;
  for (address = 0; address < 2047; address++) {
    for (value = 0; value < 2; value++) {
      board_begin();
      result = (uint8_t)doublet_accessory(signals, C_BUS_TRACK, address, value, address);
      board_end(STRETCH_COMMAND);
    }
    for (value = 0; value < 32; value += 10) {
      board_begin();
      result = (uint8_t)doublet_extended(signals, C_BUS_TRACK, address, (uint8_t)(value + address % 10), address);
      board_end(STRETCH_COMMAND);
    }
  }
}

static void frames(struct doublet *signals, uint32_t now) {
  struct doublet_frame frame;
  uint8_t chain, led[4], count;
  for (chain = 0; chain < 4; chain++) {
    board_begin();
    doublet_begin(&frame, signals, chain, now);
    board_end(STRETCH_BEGIN);
    do {
      board_begin();
      count = doublet_next(&frame, led);
      board_end(STRETCH_LED);
      result = led[0];
    } while (count > 0);
  }
}

/* The same frames once more, LEDs by what they cost: the first of a unit, its others, and those of none. */
static void sorts(struct doublet *signals, uint32_t now) {
  struct doublet_frame frame;
  uint8_t chain, led[4], stretch;
  for (chain = 0; chain < 4; chain++) {
    doublet_begin(&frame, signals, chain, now);
    while (frame.dark > 0 || frame.leds > 0 || frame.left > 0) {
      stretch = frame.dark > 0 ? STRETCH_DARK : frame.leds > 0 ? STRETCH_LAMP : STRETCH_UNIT;
      board_begin();
      result = doublet_next(&frame, led);
      board_end(stretch);
    }
  }
}

int main(void) {
  struct doublet signals;
  uint8_t i;
  board_begin();
  board_end(STRETCH_NOTHING);
  board_begin();
  result = (uint8_t)doublet_open(&signals, c_table, sizeof c_table, state, sizeof state);
  board_end(STRETCH_OPEN);
  if (result != DOUBLET_OK) {
    const char *c;
    for (c = "refused "; *c; c++) board_put(*c);
    board_hex(result, 2);
    board_put('\n');
    board_stop();
  }
  commands(&signals);
  frames(&signals, 100000);
  sorts(&signals, 100000);
  for (i = 0; i < 8; i++) {
    const uint32_t now = 200000 + 1000 * (uint32_t)i;
    board_begin();
    result = (uint8_t)doublet_extended(&signals, C_BUS_TRACK, 2047, i, now);
    board_end(STRETCH_BROADCAST);
    frames(&signals, now + 100); /* while lamps fade */
    sorts(&signals, now + 100);
  }
  board_report();
  board_stop();
  return 0;
}
