/* On an 8-bit controller: lets a lamp glow and a vane swing, and sends the bytes of frames as text. */
#define DOUBLET_FADES
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>

#include "doublet_reader.h"
#include "west.h"

static uint8_t state[WEST_STATE_BYTES];
static uint8_t leds[WEST_BYTES_OF_CHAIN_MAIN];

static void put(char c) {
  UDR0 = (uint8_t)c;
  while (!(UCSR0A & (1 << UDRE0))) {
  }
}

int main(void) {
  struct doublet signals;
  UCSR0B = 1 << TXEN0;
  if (doublet_open(&signals, west_table, sizeof west_table, state, sizeof state) == DOUBLET_OK) {
    for (uint32_t time = 100000; time < 103000; time += 50) {
      const size_t count =
          doublet_leds(&signals, WEST_CHAIN_MAIN, time, leds, sizeof leds);
      for (size_t i = 0; i < count; i++) {
        put("0123456789abcdef"[leds[i] >> 4]);
        put("0123456789abcdef"[leds[i] & 15]);
      }
      put('\n');
      if (time % 1000 == 0)
        doublet_extended(&signals, WEST_BUS_TRACK, 4, (uint8_t)(time / 1000 % 3), time);
    }
  }
  cli();
  sleep_enable();
  sleep_cpu();
  return 0;
}
