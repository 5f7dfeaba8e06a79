/*
 * What the reader costs on one table: each call is marked, and the board or its simulator keeps the largest and the
 * mean. All addresses are tried, on a table whose signals have come to many states. The table is c.h's. With SORTED, LEDs
 * are counted by what they are: the first of a unit, its others, and those of none; and frames stand where they are
 * asked for, as the compiler puts them in a sketch. Else they are functions of their own, so that their stack is seen.
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

#ifdef SORTED
#define APART static
#else
#define APART static __attribute__((noinline))
#endif

APART void begin(struct doublet_frame *frame, struct doublet *signals, uint8_t chain, uint32_t now) {
  doublet_begin(frame, signals, chain, now);
}

APART uint8_t next(struct doublet_frame *frame, uint8_t *led) { return doublet_next(frame, led); }

static uint8_t sort(const struct doublet_frame *frame) {
#ifdef SORTED
  return frame->dark > 0 ? STRETCH_DARK : frame->leds > 0 ? STRETCH_LAMP : STRETCH_UNIT;
#else
  (void)frame;
  return STRETCH_LED;
#endif
}

static void frames(struct doublet *signals, uint32_t now) {
  struct doublet_frame frame;
  uint8_t chain, led[4], stretch;
  for (chain = 0; chain < 4; chain++) {
    board_begin();
    begin(&frame, signals, chain, now);
    board_end(STRETCH_BEGIN);
    while (frame.dark > 0 || frame.leds > 0 || frame.left > 0) {
      stretch = sort(&frame);
      board_begin();
      result = next(&frame, led);
      board_end(stretch);
      result = led[0];
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
  for (i = 0; i < 8; i++) {
    const uint32_t now = 200000 + 1000 * (uint32_t)i;
    board_begin();
    result = (uint8_t)doublet_extended(&signals, C_BUS_TRACK, 2047, i, now);
    board_end(STRETCH_BROADCAST);
    frames(&signals, now + 100); /* while lamps fade */
  }
  board_report();
  board_stop();
  return 0;
}
