/* A connection by sockets; see sockets.h. */
#define _POSIX_C_SOURCE 200112L

#include "sockets.h"

#include <errno.h>
#include <fcntl.h>
#include <netdb.h>
#include <poll.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

#ifndef MSG_NOSIGNAL
#define MSG_NOSIGNAL 0 /* kits without signals have none */
#endif

#define TRIES 5 /* times that a connection under way is asked after */

static const char *to_broker, *to_port;
static int line = -1;

void sockets_begin(const char *broker, const char *port) {
  to_broker = broker;
  to_port = port;
}

int sockets_line(void) { return line; }

static void open_line(void) {
  struct addrinfo hints, *found;
  memset(&hints, 0, sizeof hints);
  hints.ai_socktype = SOCK_STREAM;
  if (getaddrinfo(to_broker, to_port, &hints, &found) != 0) return;
  line = socket(found->ai_family, found->ai_socktype, found->ai_protocol);
  if (line >= 0) {
    fcntl(line, F_SETFL, O_NONBLOCK);
    if (connect(line, found->ai_addr, found->ai_addrlen) != 0 && errno != EINPROGRESS) board_close();
  }
  freeaddrinfo(found);
}

/* A broker that is away may take minutes to be found so, and lamps must flash meanwhile: each time it is waited for as
 * long as a frame takes, and asked after again the next time. */
uint8_t board_connect(void) {
  static uint8_t asked;
  struct pollfd wait;
  int trouble = 0;
  socklen_t size = sizeof trouble;
  if (line < 0) {
    asked = 0;
    open_line();
  }
  if (line < 0) return 0;
  wait.fd = line;
  wait.events = POLLOUT;
  if (poll(&wait, 1, 20) > 0) {
    if (getsockopt(line, SOL_SOCKET, SO_ERROR, &trouble, &size) == 0 && trouble == 0) return 1;
    board_close();
  } else if (++asked == TRIES) {
    board_close();
  }
  return 0;
}

int32_t board_receive(uint8_t *bytes, uint16_t room) {
  const ssize_t count = recv(line, bytes, room, 0);
  if (count > 0) return (int32_t)count;
  return count < 0 && (errno == EAGAIN || errno == EINTR) ? 0 : -1;
}

uint8_t board_transmit(const uint8_t *bytes, uint16_t count) {
  return send(line, bytes, count, MSG_NOSIGNAL) == (ssize_t)count;
}

void board_close(void) {
  close(line);
  line = -1;
}
