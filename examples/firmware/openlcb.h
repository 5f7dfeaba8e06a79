/*
 * A node of OpenLCB on CAN that consumes events: it finds an alias, says which events it consumes, answers what such a
 * node must answer, and hands on events that are reported. It sends and receives nothing by itself, keeps no time, and
 * has no heap. It is a simple node: no datagrams, no configuration, no producers.
 *
 * Frames are taken one by one as they arrive, which takes no longer than one search for the event; those to be sent are
 * fetched one by one when the controller has room. Answers wait in OPENLCB_WAITING places; what finds them taken is not
 * answered, and whoever asked has to ask again, as the bus may lose frames too.
 *
 * Sources, all of 22 July 2024: OpenLCB CAN Frame Transfer, Message Network and Event Transport Standards, and the
 * Technical Note on CAN Frame Transfer for the aliases.
 */
#ifndef OPENLCB_H
#define OPENLCB_H

#include <stdint.h>

#define OPENLCB_WAITING 16u

/* An extended data frame. Others are none of ours: the board leaves them out. */
struct openlcb_frame {
  uint32_t header; /* 29 bits */
  uint8_t length;  /* 0 to 8 */
  uint8_t data[8];
};

/* Where a node stands. */
enum openlcb_step {
  OPENLCB_CHECK_7, /* the four frames that ask whether an alias is taken, */
  OPENLCB_CHECK_6,
  OPENLCB_CHECK_5,
  OPENLCB_CHECK_4,
  OPENLCB_ASKED,   /* which have gone out, */
  OPENLCB_WAIT,    /* and 200 ms for others to say so */
  OPENLCB_RESERVE,
  OPENLCB_MAP,
  OPENLCB_READY,   /* Initialization Complete comes next */
  OPENLCB_UP,
  OPENLCB_SILENT   /* another node has its number: it says nothing until it is begun again */
};

/* Where a walk over all events is; zeros at its beginning. */
struct openlcb_walk {
  uint16_t record, unit, value;
};

struct openlcb {
  uint8_t id[6];
  uint8_t step;
  uint8_t walking;          /* 1 while all events are being told */
  uint16_t alias;
  uint64_t seed;            /* of the next alias */
  uint32_t asked_at;        /* when the fourth frame had gone out */
  struct openlcb_walk walk;
  uint8_t first, count;     /* of the frames that wait */
  struct openlcb_frame waiting[OPENLCB_WAITING];
};

/* How an event stands with a node, as the modifier of Consumer Identified has it. */
enum openlcb_stand { OPENLCB_VALID, OPENLCB_INVALID, OPENLCB_UNKNOWN = 3, OPENLCB_NOT_OURS = 4 };

/* A node of this number, six bytes that are its owner's: it must be no other's in the world. */
void openlcb_begin(struct openlcb *n, const uint8_t id[6]);

/* Takes a frame that arrived. 1 when it reports an event, which is told, whether it is consumed or not. */
uint8_t openlcb_take(struct openlcb *n, const struct openlcb_frame *frame, uint64_t *event);

/* The next frame to be sent, once the one before has gone out: 0 when there is none. */
uint8_t openlcb_next(struct openlcb *n, struct openlcb_frame *frame, uint32_t now);

/* Says that a frame could not be sent, after the controller gave up. */
void openlcb_failed(struct openlcb *n);

/* ---- To be written by who consumes events ---- */

/* How an event stands. */
enum openlcb_stand openlcb_consumes(uint64_t event);

/* The next consumed event of a walk, each once: 0 at the end. */
uint8_t openlcb_walk(struct openlcb_walk *walk, uint64_t *event);

#endif
