/*
 * A board that is never idle: it refreshes all chains one after another, an LED in the 480 cycles that the cable takes
 * for it, while accessory packets arrive as fast as the track can carry them. Between two LEDs it takes the packet
 * that has arrived; one that arrives while another waits is lost. All of it on a cycle-true ATmega328P of 16 MHz.
 *
 * Sources: a basic packet of the fewest bits takes 5.39 ms at the sender's limits (computed from NMRA S-9.1, S-9.2 and
 * S-9.2.1); an LED of 24 bits 30 us, and 300 us of rest serve all one-wire parts (data sheets). That each edge of the
 * track costs its interrupt 40 cycles is our guess.
 */
#include "doublet_reader.h"

#include "c.h"

#include <avr/interrupt.h>
#include <util/delay_basic.h>

#include "board.h"

#define PACKETS 1000
#define PACKET_CYCLES 86240u
#define EDGES_CYCLES (84 * 40)
#define LED_CYCLES 480
#define REST_CYCLES 4800

static uint8_t state[C_STATE_BYTES];
static uint8_t packet[4];
static volatile uint8_t waiting; /* bytes of the packet that waits */
static volatile uint16_t sent, lost;

ISR(TIMER1_COMPA_vect) {
  const uint16_t address = sent % 600;
  _delay_loop_2(EDGES_CYCLES / 4);
  sent++;
  if (waiting) {
    lost++;
    return;
  }
  packet[0] = (uint8_t)(0x80 | (address >> 2 & 0x3F));
  packet[1] = (uint8_t)((~(address >> 8) & 7) << 4 | (address & 3) << 1);
  if (sent & 1) {
    packet[1] |= 0x88;
    packet[2] = packet[0] ^ packet[1];
    waiting = 3;
  } else {
    packet[1] |= 0x01;
    packet[2] = sent >> 1 & 15;
    packet[3] = packet[0] ^ packet[1] ^ packet[2];
    waiting = 4;
  }
}

static void listen(struct doublet *signals) {
  if (waiting) {
    doublet_packet(signals, C_BUS_TRACK, packet, waiting, 5 * (uint32_t)sent);
    waiting = 0;
  }
}

int main(void) {
  struct doublet signals;
  struct doublet_frame frame;
  const char *word;
  uint8_t chain, led[4], i;
  if (doublet_open(&signals, c_table, sizeof c_table, state, sizeof state) != DOUBLET_OK) board_stop();
  board_begin();
  board_end(STRETCH_NOTHING);
  /* An eighth of the clock is as near as sixteen bits come: 10,780 ticks are 86,240 cycles. */
  OCR1A = PACKET_CYCLES / 8 - 1;
  TCCR1B = 1 << WGM12 | 1 << CS11;
  TIMSK1 = 1 << OCIE1A;
  sei();
  while (sent < PACKETS) {
    board_begin();
    for (chain = 0; chain < C_CHAINS; chain++) {
      doublet_begin(&frame, &signals, chain, 5 * (uint32_t)sent);
      while (doublet_next(&frame, led) > 0) {
        _delay_loop_2(LED_CYCLES / 4);
        listen(&signals);
      }
      for (i = 0; i < 16; i++) {
        _delay_loop_2(REST_CYCLES / 16 / 4);
        listen(&signals);
      }
    }
    board_end(STRETCH_REFRESH);
  }
  cli();
  for (word = "lost"; *word; word++) board_put(*word);
  board_number(lost);
  board_put('\n');
  board_stop();
  return 0;
}
