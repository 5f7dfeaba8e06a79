/* Keeps what was marked, on processors that count their own instructions. */
#include "board.h"

struct board_mark board_mark;

static struct {
  uint32_t largest, count, stack;
  uint64_t sum;
} noted[STRETCH_COUNT];

#define STRETCH_TEXT(name, text) text,
static const char *const texts[STRETCH_COUNT] = {"", STRETCHES(STRETCH_TEXT)};

void board_note(unsigned stretch, uint32_t ticks, unsigned stack) {
#if defined(__arm__)
  ticks &= 0xFFFFFF;
#endif
  if (ticks > noted[stretch].largest) noted[stretch].largest = ticks;
  if (stack > noted[stretch].stack) noted[stretch].stack = stack;
  noted[stretch].sum += ticks;
  noted[stretch].count++;
}

static uint32_t instructions(uint32_t ticks) {
  ticks -= noted[STRETCH_NOTHING].largest; /* what reading the clock takes */
  return (uint32_t)(((uint64_t)ticks * 1000 + BOARD_TICKS_OF_1000 / 2) / BOARD_TICKS_OF_1000);
}

/* One line a stretch: name, largest, mean, count, stack.  */
void board_report(void) {
  unsigned i;
  for (i = STRETCH_NOTHING + 1; i < STRETCH_COUNT; i++) {
    const char *c;
    if (noted[i].count == 0) continue;
    for (c = texts[i]; *c; c++) board_put(*c);
    board_number(instructions(noted[i].largest));
    board_number(instructions((uint32_t)((noted[i].sum + noted[i].count / 2) / noted[i].count)));
    board_number(noted[i].count);
    board_number(noted[i].stack);
    board_put('\n');
  }
}
