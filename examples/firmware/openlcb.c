/* A node that consumes events; see openlcb.h. */
#include "openlcb.h"

#include <string.h>

#define ALL_BITS 0x0FFFFFFFu       /* bit 28 is sent as 1, and not looked at */
#define SENT 0x10000000u
#define MESSAGE 0x09000000u        /* a global or addressed message; its number stands in bits 23 to 12 */
#define WAIT_MS 200u

/* Control frames: bits 23 to 12 */
enum { RESERVE = 0x700, MAP = 0x701, ASK_FOR_MAPS = 0x702, RESET_MAP = 0x703 };

/* Messages: bits 11 to 0 of their numbers */
enum {
  REJECTED = 0x068,
  TERMINATED = 0x0A8,
  INITIALIZED_SIMPLE = 0x101,
  VERIFIED_SIMPLE = 0x171,
  VERIFY_ONE = 0x488,
  VERIFY_ALL = 0x490,
  CONSUMER_IDENTIFIED = 0x4C4,
  REPORT = 0x5B4,
  PROTOCOLS = 0x668,
  ASK_PROTOCOLS = 0x828,
  ASK_CONSUMER = 0x8F4,
  ASK_EVENTS_OF_ONE = 0x968,
  ASK_EVENTS_OF_ALL = 0x970,
  REPORT_WITH_MORE = 0xF16
};

#define DATAGRAM 0x1C48u           /* as a message it has this number (from memory) */
#define ADDRESSED 0x008u
#define UNKNOWN_MESSAGE 0x1043u    /* why one is rejected */
#define SIMPLE_WITH_EVENTS 0x84u   /* the protocols that it speaks */

static const uint8_t DUPLICATE[8] = {1, 1, 0, 0, 0, 0, 2, 1}; /* the event that says two nodes have one number */

/* The next alias; never 0. */
static void choose(struct openlcb *n) {
  do {
    const uint64_t seed = n->seed;
    n->alias = (uint16_t)((seed ^ seed >> 12 ^ seed >> 24 ^ seed >> 36) & 0xFFFu);
    n->seed = (513u * seed + 0x1B0CA37A4BA9u) & 0xFFFFFFFFFFFFu;
  } while (n->alias == 0);
  n->step = OPENLCB_CHECK_7;
  n->walking = 0;
  n->count = 0;
}

void openlcb_begin(struct openlcb *n, const uint8_t id[6]) {
  uint8_t i;
  memset(n, 0, sizeof *n);
  memcpy(n->id, id, sizeof n->id);
  for (i = 0; i < 6; i++) n->seed = n->seed << 8 | id[i];
  choose(n);
}

static void put_u16(uint8_t *to, uint16_t value) {
  to[0] = (uint8_t)(value >> 8);
  to[1] = (uint8_t)value;
}

static uint64_t event_of(const uint8_t *data) {
  uint64_t event = 0;
  uint8_t i;
  for (i = 0; i < 8; i++) event = event << 8 | data[i];
  return event;
}

static void fill(struct openlcb_frame *frame, uint32_t kind, uint16_t number, uint16_t alias, const uint8_t *data,
                 uint8_t length) {
  frame->header = SENT | kind | (uint32_t)number << 12 | alias;
  frame->length = length;
  if (length > 0) memcpy(frame->data, data, length);
}

/* Puts a frame where it waits; it is lost when there is no room. */
static void say(struct openlcb *n, uint32_t kind, uint16_t number, const uint8_t *data, uint8_t length) {
  if (n->count == OPENLCB_WAITING) return;
  fill(&n->waiting[(n->first + n->count++) % OPENLCB_WAITING], kind, number, n->alias, data, length);
}

static void identify(struct openlcb_frame *frame, uint16_t alias, uint64_t event, enum openlcb_stand stand) {
  uint8_t data[8], i;
  for (i = 8; i > 0; event >>= 8) data[--i] = (uint8_t)event;
  fill(frame, MESSAGE, (uint16_t)(CONSUMER_IDENTIFIED + stand), alias, data, sizeof data);
}

static void reject(struct openlcb *n, uint16_t to, uint16_t message) {
  uint8_t data[6];
  put_u16(data, to);
  put_u16(data + 2, UNKNOWN_MESSAGE);
  put_u16(data + 4, message);
  say(n, MESSAGE, REJECTED, data, sizeof data);
}

static void walk_all(struct openlcb *n) {
  memset(&n->walk, 0, sizeof n->walk);
  n->walking = 1;
}

/* 1 when a frame's data from a place on are this node's number. */
static uint8_t is_own(const struct openlcb *n, const struct openlcb_frame *frame, uint8_t from) {
  return frame->length == from + 6u && memcmp(frame->data + from, n->id, 6) == 0;
}

/* A frame of another that bears this node's alias. */
static void clash(struct openlcb *n, uint8_t checks) {
  if (n->step <= OPENLCB_RESERVE) {
    choose(n); /* it was not ours yet */
  } else if (checks) {
    say(n, 0, RESERVE, 0, 0);
  } else {
    const uint8_t mapped = n->step > OPENLCB_MAP;
    const uint16_t alias = n->alias;
    choose(n);
    if (mapped) fill(&n->waiting[(n->first + n->count++) % OPENLCB_WAITING], 0, RESET_MAP, alias, n->id, 6);
  }
}

/* A message to this node alone, once its last frame is there. */
static void take_addressed(struct openlcb *n, uint16_t message, uint16_t from, const struct openlcb_frame *frame) {
  uint8_t data[3];
  if ((frame->data[0] & 0x30) == 0x10 || (frame->data[0] & 0x30) == 0x30) return; /* more will come */
  switch (message) {
    case VERIFY_ONE: say(n, MESSAGE, VERIFIED_SIMPLE, n->id, 6); break;
    case ASK_EVENTS_OF_ONE: walk_all(n); break;
    case ASK_PROTOCOLS:
      put_u16(data, from);
      data[2] = SIMPLE_WITH_EVENTS;
      say(n, MESSAGE, PROTOCOLS, data, sizeof data);
      break;
    case REJECTED: case TERMINATED: break; /* else two nodes might answer one another for ever */
    default: reject(n, from, message); break;
  }
}

static uint8_t take_message(struct openlcb *n, uint16_t message, uint16_t from, const struct openlcb_frame *frame,
                            uint64_t *event) {
  const uint8_t whole = frame->length == 8;
  if (message & ADDRESSED) {
    if (frame->length >= 2 && (uint16_t)((frame->data[0] & 0xF) << 8 | frame->data[1]) == n->alias)
      take_addressed(n, message, from, frame);
    return 0;
  }
  switch (message) {
    case REPORT: case REPORT_WITH_MORE:
      if (!whole) return 0;
      *event = event_of(frame->data);
      return 1;
    case VERIFY_ALL:
      if (frame->length == 0 || is_own(n, frame, 0)) say(n, MESSAGE, VERIFIED_SIMPLE, n->id, 6);
      return 0;
    case ASK_EVENTS_OF_ALL: walk_all(n); return 0;
    case ASK_CONSUMER:
      if (whole) {
        const uint64_t asked = event_of(frame->data);
        const enum openlcb_stand stand = openlcb_consumes(asked);
        if (stand != OPENLCB_NOT_OURS && n->count < OPENLCB_WAITING)
          identify(&n->waiting[(n->first + n->count++) % OPENLCB_WAITING], n->alias, asked, stand);
      }
      return 0;
    default: return 0;
  }
}

static void take_control(struct openlcb *n, uint16_t number, const struct openlcb_frame *frame) {
  const uint8_t up = n->step > OPENLCB_MAP; /* "Permitted" */
  if (number == MAP && is_own(n, frame, 0)) {
    n->count = 0;
    if (up) say(n, MESSAGE, REPORT, DUPLICATE, sizeof DUPLICATE);
    n->step = OPENLCB_SILENT;
  } else if (number == ASK_FOR_MAPS && up && (frame->length == 0 || is_own(n, frame, 0))) {
    say(n, 0, MAP, n->id, 6);
  }
}

uint8_t openlcb_take(struct openlcb *n, const struct openlcb_frame *frame, uint64_t *event) {
  const uint32_t header = frame->header & ALL_BITS;
  const uint16_t from = (uint16_t)(header & 0xFFF), number = (uint16_t)(header >> 12 & 0xFFF);
  const uint8_t kind = (uint8_t)(header >> 24);
  if (n->step == OPENLCB_SILENT) return 0;
  if (from == n->alias) {
    if (kind == 0 && number == MAP && is_own(n, frame, 0)) take_control(n, number, frame);
    else clash(n, kind >= 4 && kind <= 7);
    return 0;
  }
  if (kind == 0) {
    take_control(n, number, frame);
  } else if (n->step == OPENLCB_UP) {
    if (kind == 9) return take_message(n, number, from, frame, event);
    /* A datagram's last frame; those have the receiver where others have their number. */
    if ((kind == 0xA || kind == 0xD) && number == n->alias) reject(n, from, DATAGRAM);
  }
  return 0;
}

uint8_t openlcb_next(struct openlcb *n, struct openlcb_frame *frame, uint32_t now) {
  if (n->count > 0) {
    *frame = n->waiting[n->first];
    n->first = (uint8_t)((n->first + 1u) % OPENLCB_WAITING);
    n->count--;
    return 1;
  }
  switch (n->step) {
    case OPENLCB_CHECK_7: case OPENLCB_CHECK_6: case OPENLCB_CHECK_5: case OPENLCB_CHECK_4: {
      /* Three digits of the node's number in each, the highest first. */
      const uint8_t *id = n->id + n->step / 2u * 3u;
      const uint16_t part =
          (uint16_t)(n->step % 2u ? (id[1] & 0xF) << 8 | id[2] : id[0] << 4 | id[1] >> 4);
      fill(frame, (uint32_t)(7u - n->step) << 24, part, n->alias, 0, 0);
      break;
    }
    case OPENLCB_ASKED:
      n->asked_at = now;
      n->step = OPENLCB_WAIT; /* fall through */
    case OPENLCB_WAIT:
      if (now - n->asked_at < WAIT_MS) return 0;
      n->step = OPENLCB_RESERVE; /* fall through */
    case OPENLCB_RESERVE: fill(frame, 0, RESERVE, n->alias, 0, 0); break;
    case OPENLCB_MAP: fill(frame, 0, MAP, n->alias, n->id, 6); break;
    case OPENLCB_READY:
      fill(frame, MESSAGE, INITIALIZED_SIMPLE, n->alias, n->id, 6);
      walk_all(n);
      break;
    case OPENLCB_UP: {
      uint64_t event;
      if (!n->walking) return 0;
      if (!openlcb_walk(&n->walk, &event)) {
        n->walking = 0;
        return 0;
      }
      identify(frame, n->alias, event, openlcb_consumes(event));
      return 1;
    }
    default: return 0;
  }
  n->step++;
  return 1;
}

void openlcb_failed(struct openlcb *n) {
  if (n->step <= OPENLCB_MAP) choose(n);
}
