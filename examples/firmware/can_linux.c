/*
 * A computer with Linux and a CAN interface as the board of openlcb_signals.c: the interface by the kernel's sockets,
 * and the bytes of LEDs in hexadecimal on the standard output whenever they change.
 *
 *   can_linux INTERFACE NODE      NODE: six pairs of hexadecimal digits with dots between, a number of your own
 *
 * Beforehand, as root: ip link set can0 type can bitrate 125000, and ip link set can0 up.
 */
#include <errno.h>
#include <fcntl.h>
#include <linux/can.h>
#include <linux/can/raw.h>
#include <net/if.h>
#include <poll.h>
#include <stdio.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/socket.h>
#include <time.h>
#include <unistd.h>

#include "can_board.h"
#include "openlcb_signals.h"

#define LONGEST 3072u /* bytes of a chain that are printed */

static int bus = -1;

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

uint8_t board_can_receive(struct openlcb_frame *frame) {
  struct can_frame got;
  while (recv(bus, &got, sizeof got, 0) == (ssize_t)sizeof got) {
    if (!(got.can_id & CAN_EFF_FLAG) || got.can_id & (CAN_RTR_FLAG | CAN_ERR_FLAG) || got.can_dlc > 8) continue;
    frame->header = got.can_id & CAN_EFF_MASK;
    frame->length = got.can_dlc;
    memcpy(frame->data, got.data, sizeof frame->data);
    return 1;
  }
  return 0;
}

uint8_t board_can_send(const struct openlcb_frame *frame) {
  struct can_frame put;
  memset(&put, 0, sizeof put);
  put.can_id = frame->header | CAN_EFF_FLAG;
  put.can_dlc = frame->length;
  memcpy(put.data, frame->data, frame->length);
  if (send(bus, &put, sizeof put, 0) == (ssize_t)sizeof put) return 1;
  return errno == EAGAIN || errno == ENOBUFS ? 0 : 2;
}

static int open_bus(const char *name) {
  struct ifreq asked;
  struct sockaddr_can at;
  memset(&asked, 0, sizeof asked);
  memset(&at, 0, sizeof at);
  snprintf(asked.ifr_name, sizeof asked.ifr_name, "%s", name);
  bus = socket(PF_CAN, SOCK_RAW, CAN_RAW);
  if (bus < 0 || ioctl(bus, SIOCGIFINDEX, &asked) != 0) return 0;
  at.can_family = AF_CAN;
  at.can_ifindex = asked.ifr_ifindex;
  return bind(bus, (struct sockaddr *)&at, sizeof at) == 0 && fcntl(bus, F_SETFL, O_NONBLOCK) == 0;
}

int main(int count, char **words) {
  unsigned part[6];
  uint8_t id[6], i;
  char more;
  if (count != 3 || sscanf(words[2], "%2x.%2x.%2x.%2x.%2x.%2x%c", &part[0], &part[1], &part[2], &part[3], &part[4],
                           &part[5], &more) != 6) {
    fprintf(stderr, "usage: can_linux INTERFACE NODE\n");
    return 2;
  }
  for (i = 0; i < 6; i++) id[i] = (uint8_t)part[i];
  if (!open_bus(words[1])) {
    fprintf(stderr, "%s: no CAN interface of this name is up\n", words[1]);
    return 2;
  }
  openlcb_signals_begin(id);
  for (;;) {
    struct pollfd wait;
    wait.fd = bus;
    wait.events = POLLIN;
    openlcb_signals_go_on();
    poll(&wait, 1, 5);
  }
}
