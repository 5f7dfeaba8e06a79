/*
 * A computer as the board of mqtt_signals.c, to try signals without any: sockets.c, a file for each slot, and
 * the bytes of LEDs in hexadecimal on the standard output whenever they change.
 *
 *   host NAME BROKER PORT FOLDER [USER PASSWORD]     FOLDER keeps the slots
 */
#define _POSIX_C_SOURCE 200112L

#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "mqtt_signals.h"
#include "sockets.h"

#define LONGEST 3072u /* bytes of a chain that are printed */

static const char *folder;
static volatile sig_atomic_t ended;

uint32_t board_millis(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (uint32_t)t.tv_sec * 1000u + (uint32_t)(t.tv_nsec / 1000000);
}

void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) {
  static uint8_t before[256][LONGEST];
  uint16_t i;
  if (count > LONGEST) count = LONGEST;
  if (memcmp(before[chain], bytes, count) == 0) return;
  memcpy(before[chain], bytes, count);
  printf("chain %u ", (unsigned)chain);
  for (i = 0; i < count; i++) printf("%02X", (unsigned)bytes[i]);
  putchar('\n');
  fflush(stdout);
}

static FILE *slot_file(uint8_t slot, const char *mode) {
  char path[4096];
  snprintf(path, sizeof path, "%s/slot%u", folder, (unsigned)slot);
  return fopen(path, mode);
}

void board_slot_read(uint8_t slot, uint32_t at, uint8_t *bytes, uint16_t count) {
  FILE *file = slot_file(slot, "rb");
  memset(bytes, 0xFF, count);
  if (!file) return;
  if (fseek(file, (long)at, SEEK_SET) == 0 && fread(bytes, 1, count, file) < count) clearerr(file);
  fclose(file);
}

void board_slot_erase(uint8_t slot) {
  FILE *file = slot_file(slot, "wb");
  if (file) fclose(file);
}

void board_slot_write(uint8_t slot, uint32_t at, const uint8_t *bytes, uint16_t count) {
  FILE *file = slot_file(slot, "r+b");
  if (!file) return; /* what is missing is told by who reads it back */
  if (fseek(file, (long)at, SEEK_SET) == 0 && fwrite(bytes, 1, count, file) < count) clearerr(file);
  fclose(file);
}

static void end(int number) {
  (void)number;
  ended = 1;
}

int main(int count, char **words) {
  struct mqtt_names names;
  if (count != 5 && count != 7) {
    fprintf(stderr, "usage: host NAME BROKER PORT FOLDER [USER PASSWORD]\n");
    return 2;
  }
  names.name = words[1];
  sockets_begin(words[2], words[3]);
  folder = words[4];
  names.user = count == 7 ? words[5] : NULL;
  names.password = count == 7 ? words[6] : NULL;
  signal(SIGTERM, end);
  signal(SIGINT, end);
  switch (mqtt_signals_begin(&names)) {
    case MQTT_BEGUN: break;
    case MQTT_WRONG_NAME: fprintf(stderr, "host: a name has 1 to 88 bytes\n"); return 2;
    case MQTT_LONG_NAMES:
      fprintf(stderr, "host: twice the name, the user and the password have 223 bytes at most\n");
      return 2;
  }
  while (!ended) {
    struct pollfd wait;
    wait.fd = sockets_line(); /* none is waited for while it is -1 */
    wait.events = POLLIN;
    mqtt_signals_go_on();
    poll(&wait, 1, 5);
  }
  mqtt_signals_end();
  return 0;
}
