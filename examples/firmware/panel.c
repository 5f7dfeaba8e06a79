/*
 * Signals set by the toggle switches of a control panel, without any bus: an example of switches.h. The table is that of
 * table.h, and switch 1 stands for address 1. Of board.h it wants board_begin, board_millis and board_send, and one thing
 * more: board_contact.
 *
 * For model railways only. See "Before you solder" in the project's README for fuses, wire, supplies and flashing
 * light.
 */
#include "board.h"
#ifdef TABLE_HEADER
#include TABLE_HEADER
#else
#include "table.h"
#endif
#include "switches.h"

#define PANEL_SWITCHES 16u
#define BOUNCE_MS 20u     /* contacts bounce for some milliseconds (common practice) */
#define FRAME_MS 20u
#define AT_LEAST_MS 1000u /* LEDs that a disturbance has changed are put right */

/* 1 while the contact of a switch is closed, which is its normal position. */
uint8_t board_contact(uint16_t number);

static uint8_t state[TABLE_STATE_BYTES];
static uint8_t leds[TABLE_LED_BYTES + 3]; /* a LED of 4 channels may reach over the end */
static struct doublet signals;

static uint8_t seen[PANEL_SWITCHES];     /* what each contact was at the last look, */
static uint8_t told[PANEL_SWITCHES];     /* and when it was handed in; 2 before */
static uint32_t since[PANEL_SWITCHES];   /* from when on it has been so */

/* Hands in switches that have come to rest at another position: 1 when a signal listens to one. */
static uint8_t look(uint32_t now) {
  uint8_t changed = 0;
  uint16_t i;
  for (i = 0; i < PANEL_SWITCHES; i++) {
    const uint8_t contact = board_contact((uint16_t)(i + 1)) != 0;
    if (contact != seen[i]) {
      seen[i] = contact;
      since[i] = now;
    } else if (contact != told[i] && now - since[i] >= BOUNCE_MS) {
      told[i] = contact;
      if (switch_thrown(&signals, TABLE_BUS, (uint16_t)(i + 1), contact ? SWITCH_NORMAL : SWITCH_REVERSE, now) > 0)
        changed = 1;
    }
  }
  return changed;
}

static uint16_t refresh(uint32_t now) {
  uint16_t quiet = AT_LEAST_MS;
  uint8_t chain;
  for (chain = 0; chain < TABLE_CHAINS; chain++) {
    struct doublet_frame frame;
    uint16_t used = 0, rest;
    uint8_t count;
    doublet_begin(&frame, &signals, chain, now);
    while (used < TABLE_LED_BYTES && (count = doublet_next(&frame, leds + used)) > 0) used = (uint16_t)(used + count);
    board_send(chain, leds, used < TABLE_LED_BYTES ? used : TABLE_LED_BYTES);
    rest = doublet_quiet(&frame);
    if (rest < quiet) quiet = rest;
  }
  return quiet;
}

int main(void) {
  uint32_t sent = 0;
  uint16_t quiet = 0, i;
  uint8_t changed = 1;
  board_begin();
  doublet_open(&signals, TABLE, sizeof TABLE, state, sizeof state);
  for (i = 0; i < PANEL_SWITCHES; i++) told[i] = 2;
  for (;;) {
    const uint32_t now = board_millis();
    changed |= look(now);
    if (now - sent >= (changed ? FRAME_MS : quiet)) {
      changed = 0;
      sent = now;
      quiet = refresh(now);
    }
  }
}
