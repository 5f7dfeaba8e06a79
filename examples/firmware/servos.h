/*
 * Arms that servos move. Servos hear how far to turn by the length of a pulse: one about every 20 ms, or
 * sooner. All pulses begin at once and are over within 2.5 ms, in which only edges of DCC are taken, and LEDs are sent only
 * between pulses, since sending shuts interrupts out for longer than a pulse may be off.
 *
 * For model railways only. "Wiring" in README.md says what the supply of servos is to be.
 */
#ifndef SERVOS_H
#define SERVOS_H

#include "board.h"

#ifdef DOUBLET_SERVOS

#define SERVO_MS 20u /* from one pulse to the next: common practice */

static struct doublet_servo servos[TABLE_SERVOS];
static uint8_t servos_asked;  /* how many of them know their next pulse */
static uint32_t servos_moved; /* when the last pulses began */

static uint8_t servos_of_table(const struct doublet *signals) {
  const uint8_t servos_there = doublet_servos(signals);
  return servos_there < TABLE_SERVOS ? servos_there : TABLE_SERVOS;
}

/* Gives all servos their pulses, if they will be due in some milliseconds. */
static void servos_move(struct doublet *signals, uint8_t ahead) {
  const uint32_t now = board_millis();
  uint16_t pulses[BOARD_SERVOS] = {0};
  uint8_t i;
  if (servos_asked == 0 || now - servos_moved + ahead < SERVO_MS) return;
  for (i = 0; i < servos_of_table(signals); i++) {
    const uint8_t channel = doublet_channel(signals, i);
    if (channel < BOARD_SERVOS) pulses[channel] = servos[i].pulse;
  }
  board_pulses(pulses);
  servos_moved = now;
  servos_asked = 0;
}

/* Works the next pulse of one servo out, as to ask for all at once would keep packets waiting; and gives pulses when they
 * are due. */
static void servos_attend(struct doublet *signals) {
  if (servos_asked < servos_of_table(signals)) {
    doublet_pulse(signals, servos_asked, &servos[servos_asked], board_millis());
    servos_asked++;
  }
  servos_move(signals, 0);
}

#else

static void servos_attend(struct doublet *signals) { (void)signals; }

#endif

#endif
