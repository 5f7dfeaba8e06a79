/*
 * Firmware for Saltmarsh Quay: lamps glow, a vane swings, nights are dimmer, and the home signal H1 is lit
 * only while a train comes. Build the table first:
 *
 *   compiler/doublet build examples/terminus/layout.yaml --output out
 *
 * then compile this file with your board's own, with out and examples/firmware among the include folders.
 *
 * For model railways only. See "Before you solder" in the README for fuses, wire, supplies and flashing light.
 */

/* Before the reader and the table: filaments and vanes then take two bytes of state a signal more. */
#define DOUBLET_FADES

#include "board.h"
#include "doublet_reader.h"
#include "quay.h"

/* Two more things that this board does, beside those of board.h. */
uint8_t board_is_dark(void);          /* 1 by night: a light sensor or a switch; must not flicker at dusk */
uint8_t board_train_approaches(void); /* 1 while a train stands on the track before H1 */

#define REFRESH_MS 10u   /* a lamp that goes out loses half its light in 20 ms */
#define LINGER_MS 5000u  /* H1 stays lit so long after a train has left the track before it */

static uint8_t state[QUAY_STATE_BYTES];
static uint8_t line[QUAY_BYTES_OF_CHAIN_LINE];
static uint8_t town[QUAY_BYTES_OF_CHAIN_TOWN];

int main(void) {
  struct doublet signals;
  uint8_t packet[6];
  uint8_t lit = 0;
  uint32_t last = 0, seen = 0;

  board_begin();
  if (doublet_open(&signals, quay_table, sizeof quay_table, state, sizeof state) != DOUBLET_OK) {
    return 1; /* A damaged table: the signals stay dark. */
  }
  for (;;) {
    uint32_t now = board_millis();
    uint8_t length = board_packet(packet);
    if (length > 0) {
      doublet_packet(&signals, QUAY_BUS_DCC, packet, length, now);
    }
    if (now - last >= REFRESH_MS) {
      last = now;

      /* Night and day: one word for the whole table. Each chain then takes its "night" or its "brightness". */
      doublet_set_night(&signals, board_is_dark());

      /* Trains: a word for each signal that is "lit: on-approach"; quay.h says which those are. */
      if (board_train_approaches()) {
        lit = 1;
        seen = now;
      } else if (now - seen >= LINGER_MS) {
        lit = 0;
      }
      doublet_set_approach(&signals, QUAY_SIGNAL_H1, lit, now);

      doublet_leds(&signals, QUAY_CHAIN_LINE, now, line, sizeof line);
      board_send(QUAY_CHAIN_LINE, line, sizeof line);
      doublet_leds(&signals, QUAY_CHAIN_TOWN, now, town, sizeof town);
      board_send(QUAY_CHAIN_TOWN, town, sizeof town);
    }
  }
}
