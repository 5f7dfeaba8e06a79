/*
 * Signals on a board with CAN; see openlcb_signals.h.
 *
 * For model railways only. See "Before you solder" in the project's README for fuses, wire, supplies and flashing
 * light.
 */
#include "openlcb_signals.h"

#include "can_board.h"
#ifdef OPENLCB_TABLE_HEADER
#include OPENLCB_TABLE_HEADER
#else
#include "openlcb_table.h"
#endif

#define FRAME_MS 20u        /* between frames while something moves */
#define AT_LEAST_MS 1000u   /* LEDs that a disturbance has changed are put right */

static struct doublet signals;
static uint8_t state[TABLE_STATE_BYTES];
static uint8_t heard[(TABLE_UNITS + 7) / 8]; /* a bit a unit: an event has come for it */
static struct openlcb node;
static struct openlcb_frame leaving;
static uint8_t left;        /* 1 when that is still to be sent */
static uint32_t lit_at;
static uint16_t quiet;      /* milliseconds for which LEDs need no frame */
static uint8_t changed;

/* ---- The events of the table, in the order of its index: see its page, "Indices" ---- */

struct record {
  uint64_t first;
  uint16_t step, unit;
  uint8_t units, run; /* no units: one event that is listed, and the step is what it calls up */
};

static uint8_t byte_at(uint16_t at) { return doublet_byte(&signals, at); }

/* The record of a number; 0 when there is none. */
static uint8_t record_at(uint16_t number, struct record *r) {
  const uint8_t *bus = doublet_bus(&signals, TABLE_BUS, 2);
  uint16_t at;
  uint8_t i;
  if (bus == signals.table || number >= doublet_u16(bus + 8)) return 0;
  at = (uint16_t)(doublet_u16(bus + 6) + DOUBLET_EVENT * number);
  r->first = 0;
  for (i = 8; i > 0; i--) r->first = r->first << 8 | byte_at((uint16_t)(at + i - 1));
  r->step = (uint16_t)(byte_at((uint16_t)(at + 8)) | byte_at((uint16_t)(at + 9)) << 8);
  r->units = byte_at((uint16_t)(at + 10));
  r->run = byte_at((uint16_t)(at + 11));
  r->unit = (uint16_t)(byte_at((uint16_t)(at + 12)) | byte_at((uint16_t)(at + 13)) << 8);
  return 1;
}

static uint16_t units_of(const struct record *r) { return r->units ? r->units : 1; }

static uint64_t first_of(const struct record *r, uint16_t place) {
  return r->first + (uint64_t)place * (r->units ? r->step : 0u);
}

/* The state that an event calls up of the unit at a place of a record, or none. */
static uint8_t called(const struct record *r, uint16_t place, const uint8_t *kind, uint64_t event) {
  const uint64_t from = first_of(r, place);
  if (event < from || event - from > 255) return DOUBLET_NO_STATE;
  if (r->units == 0) return event == from ? (uint8_t)(r->step & DOUBLET_LOW) : (uint8_t)DOUBLET_NO_STATE;
  signals.kind = kind;
  return doublet_called(&signals, (uint8_t)(event - from));
}

/* A unit that consumes an event. Zeros before the first. */
struct consumer {
  uint16_t record, place; /* the next to be looked at */
  uint16_t at_record, at_place, unit;
  const uint8_t *kind;
  uint8_t run, wanted;
};

static uint8_t next_consumer(struct consumer *c, uint64_t event) {
  struct record r;
  for (; record_at(c->record, &r) && r.first <= event; c->record++, c->place = 0) {
    if (c->place == 0) c->run = r.run;
    while (c->place < units_of(&r)) {
      c->kind = doublet_kind(&signals, &c->run);
      c->at_record = c->record;
      c->at_place = c->place++;
      c->unit = (uint16_t)(r.unit + c->at_place);
      c->wanted = called(&r, c->at_place, c->kind, event);
      if (c->wanted < DOUBLET_NO_STATE && c->unit < TABLE_UNITS) return 1;
    }
  }
  return 0;
}

enum openlcb_stand openlcb_consumes(uint64_t event) {
  struct consumer c = {0};
  enum openlcb_stand stand = OPENLCB_NOT_OURS;
  while (next_consumer(&c, event)) {
    const uint8_t shown = (uint8_t)((state[DOUBLET_UNIT * c.unit] ^ DOUBLET_BYTE(c.kind + 8)) & DOUBLET_LOW);
    /* An event for several stands as a whole: one that is otherwise is enough. */
    if (stand == OPENLCB_NOT_OURS) stand = OPENLCB_VALID;
    if (!(heard[c.unit / 8] >> c.unit % 8 & 1)) stand = stand == OPENLCB_VALID ? OPENLCB_UNKNOWN : stand;
    else if (shown != c.wanted) stand = OPENLCB_INVALID;
  }
  return stand;
}

/* One that several units consume is told where it is met first. */
static uint8_t is_first(const struct openlcb_walk *walk, uint64_t event) {
  struct consumer c = {0};
  return next_consumer(&c, event) && c.at_record == walk->record && c.at_place == walk->unit;
}

static const uint8_t *kind_at(const struct record *r, uint16_t place) {
  uint8_t run = r->run;
  const uint8_t *kind = doublet_kind(&signals, &run);
  for (; place > 0; place--) kind = doublet_kind(&signals, &run);
  return kind;
}

/* Most values call up nothing, so that is asked before others are looked through: frames wait meanwhile. */
uint8_t openlcb_walk(struct openlcb_walk *walk, uint64_t *event) {
  struct record r;
  for (; record_at(walk->record, &r); walk->record++, walk->unit = 0) {
    for (; walk->unit < units_of(&r); walk->unit++, walk->value = 0) {
      const uint8_t *kind = kind_at(&r, walk->unit);
      while (walk->value < (r.units ? 256 : 1)) {
        *event = first_of(&r, walk->unit) + walk->value++;
        if (called(&r, walk->unit, kind, *event) < DOUBLET_NO_STATE && is_first(walk, *event)) return 1;
      }
    }
  }
  return 0;
}

/* Remembers which units an event was for. */
static void hear(uint64_t event) {
  struct consumer c = {0};
  while (next_consumer(&c, event)) heard[c.unit / 8] = (uint8_t)(heard[c.unit / 8] | 1u << c.unit % 8);
}

/* ---- The loop ---- */

static void light(uint32_t now) {
  static uint8_t bytes[TABLE_LED_BYTES + 3]; /* a LED of 4 channels may reach over the end */
  struct doublet_frame frame;
  uint8_t chain, count;
  quiet = AT_LEAST_MS;
  for (chain = 0; chain < signals.chains; chain++) {
    uint16_t used = 0, rest;
    doublet_begin(&frame, &signals, chain, now);
    while (used < TABLE_LED_BYTES && (count = doublet_next(&frame, bytes + used)) > 0) used = (uint16_t)(used + count);
    board_send(chain, bytes, used < TABLE_LED_BYTES ? used : TABLE_LED_BYTES);
    rest = doublet_quiet(&frame);
    if (rest < quiet) quiet = rest;
  }
  changed = 0;
  lit_at = now;
}

void openlcb_signals_begin(const uint8_t id[6]) {
  /* A table that is refused shows nothing, and consumes nothing. */
  doublet_open(&signals, TABLE, sizeof TABLE, state, sizeof state);
  memset(heard, 0, sizeof heard);
  openlcb_begin(&node, id);
  left = 0;
  changed = 1;
}

void openlcb_signals_go_on(void) {
  const uint32_t now = board_millis();
  const uint16_t alias = node.alias;
  const uint8_t step = node.step;
  struct openlcb_frame frame;
  uint64_t event;
  while (board_can_receive(&frame)) {
    if (openlcb_take(&node, &frame, &event) && doublet_event(&signals, TABLE_BUS, event, now) > 0) {
      hear(event);
      changed = 1;
    }
  }
  /* What waited under an alias that was given up, or of a node that falls silent, is never sent. */
  if ((node.step == OPENLCB_SILENT && step < OPENLCB_SILENT) ||
      (node.alias != alias && (leaving.header & 0xFFFu) == alias))
    left = 0;
  while (left || openlcb_next(&node, &leaving, now)) {
    const uint8_t sent = board_can_send(&leaving);
    left = sent == 0;
    if (sent == 2) openlcb_failed(&node);
    if (sent != 1) break;
  }
  if (now - lit_at >= (changed || quiet < FRAME_MS ? FRAME_MS : quiet)) light(now);
}
