/*
 * Makes the calls of one sort of sketch, or with NOWHERE the same calls to functions of nowhere.c that do nothing: the
 * difference of the two programs is what the reader takes, with all that it fetches from the compiler's library.
 * PART is 1 for opening and extended packets, 2 for all of DCC and frames, 3 for every call.
 */
#include "doublet_reader.h"

#include "board.h"
#include "nowhere.h"

static uint8_t state[5 * 40];
static volatile uint8_t in, out;
static volatile uint16_t in_wide;
static volatile uint32_t in_time;

int main(void) {
  struct doublet signals;
  out = (uint8_t)CALL(open)(&signals, table, in_wide, state, sizeof state);
  for (;;) {
#if PART == 1
    out = (uint8_t)CALL(extended)(&signals, in, in_wide, in, in_time);
#else
    static uint8_t bytes[16];
    struct doublet_frame frame;
    out = (uint8_t)CALL(packet)(&signals, in, bytes, in, in_time);
    CALL(begin)(&frame, &signals, in, in_time);
    while (CALL(next)(&frame, bytes) > 0) out = bytes[0];
#if PART == 3
    static char text[16];
    uint16_t lowest, highest;
    out = (uint8_t)CALL(quiet)(&frame);
    out = (uint8_t)CALL(topic)(&signals, in, text, in, text, in, in_time);
    out = (uint8_t)CALL(event)(&signals, in, (uint64_t)in_time << 32, in_time);
    out = CALL(aspect)(&signals, in_wide, in_time);
    out = CALL(set)(&signals, in_wide, in, in_time);
    CALL(set_approach)(&signals, in_wide, in, in_time);
    out = (uint8_t)CALL(save)(&signals, bytes, in_wide);
    out = CALL(restore)(&signals, bytes, in_wide);
    out = (uint8_t)CALL(leds)(&signals, in, in_time, bytes, in_wide);
    out = (uint8_t)CALL(checksum)(&signals);
    CALL(range)(&signals, in, &lowest, &highest);
    doublet_set_night(&signals, in);
    doublet_set_test(&signals, in);
#endif
#endif
  }
}
