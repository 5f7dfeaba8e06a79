/* ATmega328P under simulate.c: a byte written to GPIOR1 is printed. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>

#include "board.h"

void board_put(char c) { GPIOR1 = (uint8_t)c; }

void board_stop(void) {
  cli();
  sleep_enable();
  sleep_cpu();
  for (;;) {
  }
}
