/*
 * A board for examples/terminus that runs through 13 seconds of one evening as fast as it can and prints the
 * bytes of every frame: milliseconds, chain, bytes.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "board.h"

uint8_t board_is_dark(void);
uint8_t board_train_approaches(void);

static uint32_t time;

void board_begin(void) {}

uint32_t board_millis(void) {
  if (time++ >= 13000) exit(0);
  return time;
}

/* The packets that "answers" lists: Clear at H1 after one second and Approach after six, Street at Q1 at once. */
uint8_t board_packet(uint8_t packet[6]) {
  static const uint8_t street[] = {0x81, 0x77, 0x03, 0xF5};
  static const uint8_t clear[] = {0x81, 0x71, 0x02, 0xF2};
  static const uint8_t approach[] = {0x81, 0x71, 0x01, 0xF1};
  const uint8_t *sent = time == 5 ? street : time == 1000 ? clear : time == 6000 ? approach : NULL;
  if (!sent) return 0;
  memcpy(packet, sent, 4);
  return 4;
}

uint8_t board_train_approaches(void) { return time >= 4000 && time < 7000; }

uint8_t board_is_dark(void) { return time >= 9500; }

void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) {
  printf("%u %u", (unsigned)time, (unsigned)chain);
  while (count-- > 0) printf(" %u", (unsigned)*bytes++);
  putchar('\n');
}
