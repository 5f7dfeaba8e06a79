/*
 * Firmware for the twelve ground signals of examples/yard, and for any other layout after changing the names
 * that begin with yard. Build the tables first:
 *
 *   compiler/doublet build examples/yard/layout.yaml --output out
 *
 * then compile this file with your board's own, with out and examples/firmware among the include folders.
 *
 * For model railways only. See "Before you solder" in the README for fuses, wire, supplies and flashing light.
 */
#include "board.h"
#include "doublet_reader.h"
#include "yard.h"

#define REFRESH_MS 20u

static uint8_t state[YARD_STATE_BYTES];
static uint8_t bytes[YARD_BYTES_OF_CHAIN_MAIN];

int main(void) {
  struct doublet signals;
  uint8_t packet[6];
  uint32_t last = 0;

  board_begin();
  if (doublet_open(&signals, yard_table, sizeof yard_table, state, sizeof state) != DOUBLET_OK) {
    return 1; /* A damaged table: the signals stay dark. */
  }
  for (;;) {
    uint32_t now = board_millis();
    uint8_t length = board_packet(packet);
    if (length > 0) {
      doublet_packet(&signals, YARD_BUS_DCC, packet, length, now);
    }
    if (now - last >= REFRESH_MS) {
      last = now;
      doublet_leds(&signals, YARD_CHAIN_MAIN, now, bytes, sizeof bytes);
      board_send(YARD_CHAIN_MAIN, bytes, sizeof bytes);
    }
  }
}
