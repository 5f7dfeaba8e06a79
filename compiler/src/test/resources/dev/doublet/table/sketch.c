/* On an 8-bit controller: reads a table from program memory, and sends what its LEDs get as text. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>

#include "doublet_reader.h"
#include "west.h"

static uint8_t state[WEST_STATE_BYTES];
static uint8_t leds[WEST_BYTES_OF_CHAIN_EAST];

static void put(char c) {
  UDR0 = (uint8_t)c;
  while (!(UCSR0A & (1 << UDRE0))) {
  }
}

static void show(struct doublet *signals, uint8_t chain, uint32_t milliseconds) {
  const size_t count = doublet_leds(signals, chain, milliseconds, leds, sizeof leds);
  for (size_t i = 0; i < count; i++) {
    put("0123456789abcdef"[leds[i] >> 4]);
    put("0123456789abcdef"[leds[i] & 15]);
  }
  put('\n');
}

int main(void) {
  static const uint8_t packet[] = {0x81, 0x73, 0x07, 0xF5};
  struct doublet signals;
  UCSR0B = 1 << TXEN0;
  if (doublet_open(&signals, west_table, sizeof west_table, state, sizeof state) == DOUBLET_OK) {
    show(&signals, WEST_CHAIN_EAST, 0);
    doublet_extended(&signals, WEST_BUS_TRACK, 4, 3, 123000);
    doublet_packet(&signals, WEST_BUS_TRACK, packet, sizeof packet, 123000);
    doublet_topic(&signals, WEST_BUS_NET, "brackwater/home", 15, " aspect 2\n", 10, 123000);
    doublet_event(&signals, WEST_BUS_CLUB, 0xFFFFFFFFFFFFFFFFull, 123000);
    show(&signals, WEST_CHAIN_EAST, 123000);
    show(&signals, WEST_CHAIN_EAST, 123456);
    show(&signals, WEST_CHAIN_WEST, 123456);
  }
  cli();
  sleep_enable();
  sleep_cpu();
  return 0;
}
