/*
 * A board of openlcb_signals.c by hand. Each line is a step, after which the loop goes on once; what it sends is
 * printed, frame by frame, and LEDs that have changed.
 *
 *   begin NODE      a node of this number, twelve digits
 *   at MS           the time is this
 *   got HEADER DATA a frame has arrived, in hexadecimal
 *   room N          from now on the controller takes no more than N frames a step
 *   fails           the controller gives up the next frame
 *   random SEED N   so many frames of any bytes arrive, and none that is sent is printed

 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "can_board.h"
#include "openlcb_signals.h"

static uint32_t now;
static struct openlcb_frame arrived;
static unsigned begun, arriving, room, rooms = 1000, fails, quiet;

uint32_t board_millis(void) { return now; }

void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) {
  static uint8_t before[600];
  uint16_t i;
  if (memcmp(before, bytes, count) == 0) return;
  memcpy(before, bytes, count);
  if (quiet) return;
  printf("leds %u ", (unsigned)chain);
  for (i = 0; i < count; i++) printf("%02X", (unsigned)bytes[i]);
  printf(";");
}

uint8_t board_can_receive(struct openlcb_frame *frame) {
  if (!arriving) return 0;
  arriving = 0;
  *frame = arrived;
  return 1;
}

uint8_t board_can_send(const struct openlcb_frame *frame) {
  uint8_t i;
  if (fails) {
    fails = 0;
    return 2;
  }
  if (room == 0) return 0;
  room--;
  if (frame->header >> 28 != 1 || frame->length > 8) printf("not as it should be: ");
  if (quiet) return 1;
  printf("%08lX", (unsigned long)frame->header);
  for (i = 0; i < frame->length; i++) printf("%s%02X", i ? "" : " ", (unsigned)frame->data[i]);
  printf(";");
  return 1;
}

static uint32_t any(uint32_t *seed) {
  *seed = 1664525u * *seed + 1013904223u;
  return *seed >> 8;
}

/* Half of the frames are of the messages and to the alias that a node may have. */
static void random_frames(uint32_t seed, unsigned count) {
  static const uint32_t kinds[] = {0x195B4456, 0x19F16456, 0x198F4456, 0x19970456, 0x19968456, 0x19488456,
                                   0x19490456, 0x19828456, 0x10702456, 0x19DE8456, 0x1A12C456, 0x1949012C};
  quiet = 1;
  for (; count > 0; count--) {
    uint8_t i;
    arrived.header = (any(&seed) ^ any(&seed) << 8) & 0x1FFFFFFF;
    if (count % 2) arrived.header = kinds[any(&seed) % (sizeof kinds / sizeof *kinds)];
    arrived.length = (uint8_t)(any(&seed) % 9);
    for (i = 0; i < 8; i++) arrived.data[i] = (uint8_t)any(&seed);
    if (count % 4 == 1) memcpy(arrived.data, "\1\x2C", 2);
    arriving = 1;
    now += any(&seed) % 4;
    room = any(&seed) % 6;
    fails = any(&seed) % 50 == 0;
    openlcb_signals_go_on();
  }
  quiet = 0;
}

int main(void) {
  static char line[300];
  while (fgets(line, sizeof line, stdin)) {
    char *words[4] = {0}, *word = strtok(line, " \n");
    unsigned count = 0;
    for (; word && count < 4; word = strtok(NULL, " \n")) words[count++] = word;
    if (count < 1) continue;
    room = rooms;
    if (strcmp(words[0], "begin") == 0 && count > 1) {
      uint8_t id[6], i;
      for (i = 0; i < 6; i++) {
        char byte[3] = {words[1][2 * i], words[1][2 * i + 1], 0};
        id[i] = (uint8_t)strtoul(byte, NULL, 16);
      }
      now = 0;
      begun = 1;
      openlcb_signals_begin(id);
    } else if (strcmp(words[0], "at") == 0 && count > 1) {
      now = (uint32_t)strtoul(words[1], NULL, 10);
    } else if (strcmp(words[0], "got") == 0 && count > 1) {
      const char *data = count > 2 ? words[2] : "";
      memset(&arrived, 0, sizeof arrived);
      arrived.header = (uint32_t)strtoul(words[1], NULL, 16);
      for (; data[0] && data[1]; data += 2) {
        char byte[3] = {data[0], data[1], 0};
        arrived.data[arrived.length++] = (uint8_t)strtoul(byte, NULL, 16);
      }
      arriving = 1;
    } else if (strcmp(words[0], "room") == 0 && count > 1) {
      room = rooms = (unsigned)atoi(words[1]);
    } else if (strcmp(words[0], "fails") == 0) {
      fails = 1;
    } else if (strcmp(words[0], "random") == 0 && count > 2) {
      random_frames((uint32_t)strtoul(words[1], NULL, 10), (unsigned)atoi(words[2]));
      printf("\n");
      continue;
    }
    if (begun) openlcb_signals_go_on();
    printf("\n");
  }
  return 0;
}
