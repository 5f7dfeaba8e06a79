/* SPDX-License-Identifier: 0BSD OR Apache-2.0 */
/*
 * The reader of Doublet tables, format version 3 (table.md beside the compiler's table package).
 *
 * C99 and C++. No heap, no floats, no recursion, nothing static but constants. Opening checks the
 * structure once; after it every place in the table is held inside the table and every unit inside
 * the state, so that any bytes are safe, also those that change later. It is one file with its
 * reason: a sketch includes it and needs nothing else.
 *
 *   static uint8_t state[STATE_BYTES];
 *   struct doublet signals;
 *   if (doublet_open(&signals, table, sizeof table, state, sizeof state) == DOUBLET_OK) ...
 *   doublet_packet(&signals, bus, packet, length, now);     as commands arrive
 *   doublet_begin(&frame, &signals, chain, now);            for each refresh of a chain
 *   while ((count = doublet_next(&frame, bytes)) > 0) ...   the bytes of one LED after another,
 *   doublet_leds(&signals, chain, now, bytes, size);        or of all at once
 *
 * Times are milliseconds since any moment, and may wrap. Calls that take a const struct doublet
 * only read, and may come from an interrupt at any time. All others change what is remembered:
 * make them from one place, or keep interrupts that make them away from each other. Commands may
 * come between two LEDs of a frame. To change to another table, open it with a struct and a state
 * of its own while the first one runs, and begin the next frame with the new one.
 *
 * The table is read through DOUBLET_BYTE(pointer): from program memory on AVR, from ordinary memory
 * elsewhere. Define it before including this file to read from somewhere else. Commands always come
 * from ordinary memory.
 *
 * Define before including this file, in every file that includes it:
 *   DOUBLET_FADES         filament lamps glow and vanes swing, for 2 bytes of state a unit more
 *   DOUBLET_SWING         milliseconds of a vane, 3 to 510; 300 unless said, as none is published
 *   DOUBLET_NO_SETTLING   leaves out settling, and its byte of state a unit
 *   DOUBLET_NO_TOPICS     leaves out MQTT
 *   DOUBLET_NO_EVENTS     leaves out OpenLCB
 *   DOUBLET_WORDS         reasons of refusal in words
 * A table that needs what was left out is refused.
 */
#ifndef DOUBLET_READER_H
#define DOUBLET_READER_H

#include <stddef.h>
#include <stdint.h>

#ifdef __AVR__
#include <avr/pgmspace.h>
#endif
#ifndef DOUBLET_BYTE
#ifdef __AVR__
#define DOUBLET_BYTE(p) pgm_read_byte(p)
#else
#define DOUBLET_BYTE(p) (*(p))
#endif
#endif

#ifdef DOUBLET_NO_SETTLING
#define DOUBLET_SETTLES 0u
#else
#define DOUBLET_SETTLES 1u
#endif
#ifdef DOUBLET_FADES
#define DOUBLET_UNIT (4u + DOUBLET_SETTLES)
#ifndef DOUBLET_SWING
#define DOUBLET_SWING 300u
#endif
#if DOUBLET_SWING < 3 || DOUBLET_SWING > 510
#error "DOUBLET_SWING is 3 to 510 milliseconds"
#endif
#else
#define DOUBLET_UNIT (2u + DOUBLET_SETTLES)
#endif

/* Functions stay functions where the compiler lets us say so: it saves half of the bytes. */
#ifdef __GNUC__
#define DOUBLET_FUNCTION static __attribute__((unused, noinline))
#define DOUBLET_INLINE static inline __attribute__((unused, always_inline))
#else
#define DOUBLET_FUNCTION static inline
#define DOUBLET_INLINE static inline
#endif

/* An open table. After a refusal it holds nothing, and every call does nothing. */
struct doublet {
  const uint8_t *table;
  uint8_t *state;  /* each unit: the state (top bit: dark for want of a train); bits received (low
                      half), bits known (high); when a packet came; the state before, since when */
  uint16_t length;
  uint16_t units;
  uint8_t buses;
  uint8_t chains;
  uint8_t night;   /* not 0: the palettes for night are shown */
  uint8_t test;    /* not 0: the colour that all lamps show */
};

/* A frame of a chain that is under way. */
struct doublet_frame {
  struct doublet *signals;
  uint32_t now;
  uint16_t left;    /* LEDs to come */
  uint16_t dark;    /* of these, dark ones to come first */
  uint16_t at;      /* the next place */
  uint16_t unit;    /* the next unit */
  uint16_t lights;  /* the light of the next LED */
  uint16_t palette; /* bytes of colour 0, were there any */
  uint16_t quiet;   /* milliseconds in which fades and settling change nothing */
  uint8_t channels;
  uint8_t run;      /* units to come of this run; top bit: each behind dark LEDs */
  uint8_t leds;     /* LEDs to come of this unit */
  uint8_t kinds;    /* the run of kinds */
  uint8_t first[2]; /* which rhythms are in their first part */
  uint8_t used[2];  /* which rhythms were met */
};

/* Why a table is refused. */
enum doublet_reason {
  DOUBLET_OK,
  DOUBLET_TOO_SHORT,
  DOUBLET_NOT_A_TABLE,
  DOUBLET_OTHER_VERSION,
  DOUBLET_WRONG_LENGTH,
  DOUBLET_WRONG_CHECKSUM,
  DOUBLET_LEFT_OUT,
  DOUBLET_NOT_SOUND,
  DOUBLET_STATE_TOO_SMALL
};

/* ---- Inside ---- */

#define DOUBLET_VERSION 3u
#define DOUBLET_HEADER 30u
#define DOUBLET_SUM 4u
#define DOUBLET_BUS 12u
#define DOUBLET_CHAIN 9u
#define DOUBLET_RHYTHM 4u
#define DOUBLET_LIGHT 2u
#define DOUBLET_KIND 11u
#define DOUBLET_RHYTHMS 16u
#define DOUBLET_BROADCAST 2047u
#define DOUBLET_LOW 0x7Fu    /* the number in a byte whose top bit says more */
#define DOUBLET_TOP 0x80u
#define DOUBLET_NOTHING 256u /* no value, or no state */

/* Where the header says where sections begin. */
enum doublet_section {
  DOUBLET_AT_CHAINS = 18,
  DOUBLET_AT_RHYTHMS = 20,
  DOUBLET_AT_LIGHTS = 22,
  DOUBLET_AT_KINDS = 24,
  DOUBLET_AT_CYCLES = 26
};

/* The byte at a place that is known to lie inside. */
DOUBLET_INLINE unsigned doublet_u8(const struct doublet *d, unsigned at) {
  return DOUBLET_BYTE(d->table + at);
}

DOUBLET_FUNCTION unsigned doublet_u16(const struct doublet *d, unsigned at) {
  return doublet_u8(d, at) | doublet_u8(d, at + 1) << 8;
}

/* A place with so many bytes, at most 30, inside the table: the one asked for, or the header. */
DOUBLET_INLINE unsigned doublet_in(const struct doublet *d, unsigned at, unsigned size) {
  return at <= d->length - size ? at : 0u;
}

DOUBLET_FUNCTION uint32_t doublet_u32(const struct doublet *d, unsigned at) {
  at = doublet_in(d, at, 4);
  return doublet_u16(d, at) | (uint32_t)doublet_u16(d, at + 2) << 16;
}

/* Where the kind is of which a run's next unit is. */
DOUBLET_FUNCTION unsigned doublet_kind(const struct doublet *d, unsigned kinds) {
  if (kinds & DOUBLET_TOP)
    kinds = doublet_u8(
        d, doublet_in(d, doublet_u16(d, DOUBLET_AT_CYCLES) + (kinds & DOUBLET_LOW), 1));
  return doublet_in(d, doublet_u16(d, DOUBLET_AT_KINDS) + DOUBLET_KIND * (kinds & DOUBLET_LOW),
                    DOUBLET_KIND);
}

/* The run of kinds from its second unit on. */
DOUBLET_FUNCTION unsigned doublet_behind(const struct doublet *d, unsigned kinds) {
  unsigned jump;
  if (!(kinds & DOUBLET_TOP)) return kinds;
  kinds++;
  jump = doublet_u8(d, doublet_in(d, doublet_u16(d, DOUBLET_AT_CYCLES) + (kinds & DOUBLET_LOW), 1));
  if (jump & DOUBLET_TOP) kinds -= jump & DOUBLET_LOW;
  return kinds | DOUBLET_TOP;
}

/* CRC-32C, one byte on; begin with all ones, and complement the end. Tables would be faster, and
 * take more bytes than any other part of this reader. */
DOUBLET_FUNCTION uint32_t doublet_sum(uint32_t sum, unsigned byte) {
  uint8_t bit;
  sum ^= byte;
  for (bit = 0; bit < 8; bit++) sum = sum & 1 ? sum >> 1 ^ 0x82F63B78u : sum >> 1;
  return sum;
}

/* The state that a value calls up on a kind, or nothing. */
DOUBLET_FUNCTION unsigned doublet_called(const struct doublet *d, unsigned kind, unsigned value) {
  const unsigned states = doublet_u8(d, kind + 1);
  unsigned at = doublet_u16(d, kind + 4), count = states & DOUBLET_LOW, first, end;
  if (at) {
    at = doublet_in(d, at, 1);
    count = doublet_u8(d, at);
    at++;
  } else {
    at = doublet_u16(d, kind + 2);
  }
  first = at;
  end = at + count;
  if (end > d->length) end = d->length;
  for (; at < end; at++) {
    if (doublet_u8(d, at) == value) {
      if (states & DOUBLET_TOP) return doublet_u8(d, doublet_in(d, at + count, 1));
      return at - first;
    }
  }
  return DOUBLET_NOTHING;
}

/* Changes the first byte of a unit. */
DOUBLET_FUNCTION void doublet_turn(uint8_t *unit, unsigned to, uint16_t now) {
#ifdef DOUBLET_FADES
  uint8_t *fade = unit + DOUBLET_UNIT - 2;
  if (to != unit[0]) {
    const uint8_t time = (uint8_t)(now >> 2);
    if (fade[0] == unit[0] || (uint8_t)(time - fade[1]) >= 32) {
      fade[0] = unit[0];
      fade[1] = time;
    }
  }
#else
  (void)now;
#endif
  unit[0] = (uint8_t)to;
}

/* Shows a state; nothing is the rest state, unless the present one is to stay. */
DOUBLET_FUNCTION void doublet_show(const struct doublet *d, uint8_t *unit, unsigned kind,
                                   unsigned state, uint16_t now) {
  if (state >= DOUBLET_NOTHING) {
    if (doublet_u8(d, kind + 6) & 0x40) return;
    state = doublet_u8(d, kind + 8);
  }
  doublet_turn(unit, (unit[0] & DOUBLET_TOP) | (state & DOUBLET_LOW), now);
}

/* Calls up what the bits of a unit say, once all are known. */
DOUBLET_FUNCTION void doublet_decide(const struct doublet *d, uint8_t *unit, unsigned kind,
                                     uint16_t now) {
  if (unit[1] >> 4 == (1u << (doublet_u8(d, kind + 7) & 7)) - 1)
    doublet_show(d, unit, kind, doublet_called(d, kind, unit[1] & 15u), now);
}

/* Sees whether a unit that waits for packets has settled; returns how many steps it still waits. */
DOUBLET_FUNCTION unsigned doublet_settle(const struct doublet *d, uint8_t *unit, unsigned kind,
                                         uint16_t now) {
#ifndef DOUBLET_NO_SETTLING
  if (unit[2]) {
    const unsigned age = ((unsigned)(now >> 4) - unit[2]) & DOUBLET_LOW;
    const unsigned settling = doublet_u8(d, kind + 10) & 63;
    if (age <= settling) return settling + 1 - age;
    unit[2] = 0;
    doublet_decide(d, unit, kind, now);
  }
#else
  (void)d, (void)unit, (void)kind, (void)now;
#endif
  return 0;
}

/* Takes a command to one of a unit's addresses. */
DOUBLET_INLINE void doublet_take(const struct doublet *d, uint8_t *unit, unsigned kind,
                                 unsigned place, unsigned value, uint16_t now) {
  const unsigned mode = doublet_u8(d, kind + 6);
  if ((mode & 7) == 1) {
    unsigned bit;
    doublet_settle(d, unit, kind, now);
    if (!(mode & 0x10)) place = doublet_u8(d, kind + 7) - 1 - place;
    bit = 1u << (place & 3);
    unit[1] = (uint8_t)((unit[1] & ~bit) | bit << 4 | (value == (mode >> 3 & 1) ? bit : 0));
#ifndef DOUBLET_NO_SETTLING
    if (doublet_u8(d, kind + 10) & 63) {
      unit[2] = (uint8_t)(DOUBLET_TOP | now >> 4);
      return;
    }
#endif
    doublet_decide(d, unit, kind, now);
    return;
  }
  if ((mode & 7) == 2) value += 2 * place;
  doublet_show(d, unit, kind, doublet_called(d, kind, value), now);
}

/* An accessory command: value is the output of a basic one, the aspect's number of an extended. */
DOUBLET_FUNCTION uint16_t doublet_dcc(const struct doublet *d, unsigned bus, unsigned basic,
                                      unsigned address, unsigned value, uint16_t now) {
  unsigned at, low = 0, high, size, reach, all, taken = 0;
  if (bus >= d->buses) return 0;
  bus = doublet_in(d, DOUBLET_HEADER + DOUBLET_BUS * bus, DOUBLET_BUS);
  at = doublet_u16(d, bus + 6);
  high = doublet_u16(d, bus + 8);
  all = !basic && address == DOUBLET_BROADCAST;
  if (!basic && value >> (doublet_u8(d, bus + 1) & 15)) value = DOUBLET_NOTHING;
  reach = doublet_u8(d, bus + 10);
  size = doublet_u8(d, bus + 11);
  while (low < high) {
    const unsigned middle = (low + high) >> 1;
    if (doublet_u16(d, doublet_in(d, at + size * middle, 2)) >> 5 > address)
      high = middle;
    else
      low = middle + 1;
  }
  for (at += size * low; low > 0; low--) {
    unsigned first, units, kinds, unit, place;
    at -= size;
    first = doublet_in(d, at, 6);
    unit = doublet_u8(d, first + 2);
    kinds = doublet_u8(d, first + 3);
    place = 0;
    if (size > 4) {
      unit |= doublet_u8(d, first + 4) << 8;
      place = doublet_u8(d, first + 5);
    }
    first = doublet_u16(d, first);
    units = (first & 31) + 1;
    first = address - (first >> 5);
    if (first > reach && !all) break;
    for (; units > 0 && unit < d->units; units--, unit++) {
      const unsigned kind = doublet_kind(d, kinds);
      const unsigned addresses = place ? 1 : doublet_u8(d, kind + 7);
      if (all || first < addresses) {
        if (((doublet_u8(d, kind + 6) & 7) != 0) == basic) {
          doublet_take(d, d->state + DOUBLET_UNIT * unit, kind, place ? place - 1 : first, value, now);
          taken++;
        }
        if (!all) break;
      }
      first -= addresses;
      kinds = doublet_behind(d, kinds);
    }
  }
  return (uint16_t)taken;
}

/* The level of a lamp, or a drive at a level: divided by 255 and rounded. */
DOUBLET_INLINE unsigned doublet_scaled(unsigned full, unsigned level) {
  const uint16_t product = (uint16_t)(full * level + 128u);
  return (uint8_t)((uint16_t)(product + (product >> 8)) >> 8);
}

/* Milliseconds since a rhythm began anew: a remainder, bit by bit, as 16 bits hold it. */
DOUBLET_FUNCTION uint16_t doublet_into(uint32_t now, uint16_t period) {
  uint16_t rest = 0;
  uint8_t bit;
  for (bit = 0; bit < 32; bit++, now <<= 1) {
    const uint16_t over = rest & 0x8000u;
    rest = (uint16_t)(rest << 1 | (now & 0x80000000u ? 1 : 0));
    if (over || rest >= period) rest = (uint16_t)(rest - period);
  }
  return rest;
}

DOUBLET_FUNCTION unsigned doublet_rhythm(const struct doublet *d, unsigned rhythm) {
  return doublet_in(d, doublet_u16(d, DOUBLET_AT_RHYTHMS) + DOUBLET_RHYTHM * (rhythm & 15),
                    DOUBLET_RHYTHM);
}

/* Begins to walk over the units of a chain that is there. */
DOUBLET_FUNCTION unsigned doublet_walk(struct doublet_frame *f, const struct doublet *d,
                                       unsigned chain) {
  chain = doublet_in(d, doublet_u16(d, DOUBLET_AT_CHAINS) + DOUBLET_CHAIN * chain, DOUBLET_CHAIN);
  f->left = (uint16_t)doublet_u16(d, chain);
  f->at = (uint16_t)doublet_u16(d, chain + 5);
  f->unit = (uint16_t)doublet_u16(d, chain + 7);
  f->run = f->kinds = 0;
  f->dark = 0;
  return chain;
}

/* Goes on to a chain's next unit: where its kind is, or 0 when there is none. */
DOUBLET_FUNCTION unsigned doublet_step(struct doublet_frame *f, const struct doublet *d) {
  unsigned at = f->at;
  while ((f->run & DOUBLET_LOW) == 0) {
    unsigned first;
    at = doublet_in(d, at, 3);
    first = doublet_u8(d, at);
    if (first == 0 || at == 0) {
      f->at = (uint16_t)at;
      return 0;
    }
    if (first == DOUBLET_TOP) {
      f->dark = (uint16_t)(f->dark + doublet_u16(d, at + 1));
      at += 3;
    } else {
      f->run = (uint8_t)first;
      if (first < DOUBLET_TOP) {
        f->dark = (uint16_t)(f->dark + doublet_u8(d, at + 1));
        at++;
      }
      f->kinds = (uint8_t)doublet_u8(d, at + 1);
      at += 2;
    }
  }
  if (f->run & DOUBLET_TOP) f->dark = (uint16_t)(f->dark + doublet_u8(d, doublet_in(d, at++, 1)));
  f->at = (uint16_t)at;
  f->run--;
  f->unit++;
  at = doublet_kind(d, f->kinds);
  f->kinds = (uint8_t)doublet_behind(d, f->kinds);
  return at;
}

/* Where the kind of a unit that is there is. */
DOUBLET_FUNCTION unsigned doublet_of(const struct doublet *d, unsigned unit) {
  struct doublet_frame walk;
  unsigned chain, kind;
  chain = d->chains;
  do doublet_walk(&walk, d, --chain);
  while (chain > 0 && walk.unit > unit);
  do {
    kind = doublet_step(&walk, d);
  } while (kind && walk.unit <= unit);
  return kind;
}


/* 1 when a piece of so many bytes lies behind the sections and before the checksum. */
DOUBLET_FUNCTION unsigned doublet_holds(const struct doublet *d, unsigned at, uint32_t size) {
  return at >= doublet_u16(d, DOUBLET_AT_CYCLES) && at + size <= d->length - DOUBLET_SUM;
}

/* 1 when a place is that of a kind. */
DOUBLET_FUNCTION unsigned doublet_is_kind(const struct doublet *d, unsigned at) {
  return at >= doublet_u16(d, DOUBLET_AT_KINDS) && at < doublet_u16(d, DOUBLET_AT_CYCLES);
}

/* 1 when the sections follow one another, and the cycles lead nowhere else. */
DOUBLET_FUNCTION unsigned doublet_sections(const struct doublet *d) {
  /* Where each section's count is, and the bytes of one: chains, rhythms, lights, kinds, cycles. */
  static const uint8_t counts[5] = {13, 14, 15, 17, 28};
  static const uint8_t sizes[5] = {DOUBLET_CHAIN, DOUBLET_RHYTHM, DOUBLET_LIGHT, DOUBLET_KIND, 1};
  uint32_t at = DOUBLET_HEADER + DOUBLET_BUS * (uint32_t)d->buses;
  unsigned i, byte = DOUBLET_TOP;
  for (i = 0; i < 5; i++) {
    if (doublet_u16(d, DOUBLET_AT_CHAINS + 2 * i) != at) return 0;
    at += sizes[i] * (uint32_t)doublet_u8(d, counts[i]);
  }
  if (at > d->length - DOUBLET_SUM || doublet_u8(d, 14) > DOUBLET_RHYTHMS) return 0;
  at -= doublet_u8(d, 28);
  for (i = 0; i < doublet_u8(d, 28); i++) {
    byte = doublet_u8(d, doublet_in(d, (unsigned)at + i, 1));
    if (byte >= DOUBLET_TOP) {
      byte &= DOUBLET_LOW;
      if (byte == 0 || byte > i ||
          doublet_u8(d, doublet_in(d, (unsigned)at + i - byte, 1)) >= DOUBLET_TOP)
        return 0;
      byte = DOUBLET_TOP;
    } else if (byte >= doublet_u8(d, 17)) {
      return 0;
    }
  }
  return byte == DOUBLET_TOP;
}

/* 1 when all that belongs to a kind is there. */
DOUBLET_FUNCTION unsigned doublet_has(const struct doublet *d, unsigned kind) {
  const unsigned leds = doublet_u8(d, kind), states = doublet_u8(d, kind + 1) & DOUBLET_LOW;
  const unsigned answers = doublet_u16(d, kind + 4), mode = doublet_u8(d, kind + 6);
  const unsigned glows = doublet_u8(d, kind + 10) & DOUBLET_TOP ? leds : 0;
  uint32_t size = 4u * states;
  if (doublet_u8(d, kind + 8) >= states || doublet_u8(d, kind + 9) >= d->buses) return 0;
  if (!doublet_holds(d, doublet_u16(d, kind + 2), (uint32_t)states * (leds + 1) + glows)) return 0;
  if (answers == 0) return 1;
  if (!(mode & 0x20)) {
    size = doublet_u8(d, doublet_in(d, answers, 1));
    size = 1 + size * (doublet_u8(d, kind + 1) & DOUBLET_TOP ? 2u : 1u);
  }
  return doublet_holds(d, answers, size);
}

/* 1 when the places of a chain make up its units; brings these to rest. */
DOUBLET_FUNCTION unsigned doublet_begins(const struct doublet *d, unsigned chain, uint16_t *units) {
  struct doublet_frame walk;
  unsigned kind, channels;
  uint32_t leds = 0;
  chain = doublet_walk(&walk, d, chain);
  channels = doublet_u8(d, chain + 2);
  if (walk.unit != *units || (channels & DOUBLET_LOW) - 1 > 3) return 0;
  if (channels & DOUBLET_TOP) channels *= 2;
  if (!doublet_holds(d, doublet_u16(d, chain + 3), (channels & 15) * doublet_u8(d, 16))) return 0;
  while ((kind = doublet_step(&walk, d)) != 0) {
    unsigned i = walk.unit - 1u;
    uint8_t *unit;
    if (i >= d->units || !doublet_is_kind(d, kind)) return 0;
    unit = d->state + DOUBLET_UNIT * i;
    leds += walk.dark + (uint32_t)doublet_u8(d, kind);
    walk.dark = 0;
    for (i = 1; i < DOUBLET_UNIT; i++) unit[i] = 0;
    unit[0] = (uint8_t)doublet_u8(d, kind + 8);
#ifdef DOUBLET_FADES
    unit[DOUBLET_UNIT - 2] = unit[0];
#endif
  }
  *units = walk.unit;
  return walk.at && !(walk.run & DOUBLET_LOW) && leds + walk.dark <= walk.left;
}

/* 1 when the indices of a bus lie inside, and have no more units than the table. */
DOUBLET_FUNCTION unsigned doublet_lists(const struct doublet *d, unsigned bus) {
  const unsigned carries = doublet_u8(d, bus) & 3, size = doublet_u8(d, bus + 11);
  unsigned at = doublet_u16(d, bus + 6), left = doublet_u16(d, bus + 8), units = 0;
  if (!doublet_holds(d, at, size * (uint32_t)left)) return 0;
  if (carries) return size == (carries == 1 ? 7 : 14);
  if (size != 4 && size != 6) return 0;
  for (; left > 0; left--) {
    unsigned kind;
    at = doublet_in(d, at, 6);
    kind = doublet_kind(d, doublet_u8(d, at + 3));
    if (!doublet_is_kind(d, kind)) return 0;
    if (size == 4 || doublet_u8(d, at + 5) == 0) units += (doublet_u16(d, at) & 31) + 1;
    if (units > d->units) return 0;
    at += size;
  }
  return 1;
}

/* Why a table is refused, once it is known to have a header and a checksum. */
DOUBLET_FUNCTION enum doublet_reason doublet_refusal(struct doublet *d, size_t size,
                                                     size_t state_size) {
  uint32_t sum = 0xFFFFFFFFu;
  unsigned i, needs;
  uint16_t units = 0;
  if (doublet_u32(d, 0) != 0x544C4244u) return DOUBLET_NOT_A_TABLE;
  if (doublet_u8(d, 4) != DOUBLET_VERSION) return DOUBLET_OTHER_VERSION;
  if (doublet_u16(d, 6) != size) return DOUBLET_WRONG_LENGTH;
  for (i = 0; i < d->length - DOUBLET_SUM; i++) sum = doublet_sum(sum, doublet_u8(d, i));
  if (~sum != doublet_u32(d, i)) return DOUBLET_WRONG_CHECKSUM;
  needs = doublet_u8(d, 5);
  if (needs & ~(2u | DOUBLET_SETTLES)) return DOUBLET_LEFT_OUT;
  i = doublet_u16(d, 10);
  if (state_size / DOUBLET_UNIT < i) return DOUBLET_STATE_TOO_SMALL;
  d->units = (uint16_t)i;
  d->buses = (uint8_t)doublet_u8(d, 12);
  if (!doublet_sections(d)) return DOUBLET_NOT_SOUND;
  for (i = 0; i < d->buses; i++) {
    const unsigned bus = doublet_in(d, DOUBLET_HEADER + DOUBLET_BUS * i, DOUBLET_BUS);
#ifdef DOUBLET_NO_TOPICS
    if (doublet_u8(d, bus) == 1) return DOUBLET_LEFT_OUT;
#endif
#ifdef DOUBLET_NO_EVENTS
    if (doublet_u8(d, bus) == 2) return DOUBLET_LEFT_OUT;
#endif
    if (!doublet_lists(d, bus)) return DOUBLET_NOT_SOUND;
  }
  for (i = doublet_u16(d, DOUBLET_AT_KINDS); i < doublet_u16(d, DOUBLET_AT_CYCLES);
       i += DOUBLET_KIND)
    if (!doublet_has(d, doublet_in(d, i, DOUBLET_KIND))) return DOUBLET_NOT_SOUND;
  for (i = 0; i < doublet_u8(d, 13); i++)
    if (!doublet_begins(d, i, &units)) return DOUBLET_NOT_SOUND;
  d->chains = (uint8_t)i;
  return units == d->units ? DOUBLET_OK : DOUBLET_NOT_SOUND;
}

/* Where a flashing light is. */
DOUBLET_INLINE unsigned doublet_flashing(const struct doublet *d, unsigned light) {
  light -= doublet_u8(d, 16) + 1;
  return doublet_in(d, doublet_u16(d, DOUBLET_AT_LIGHTS) + DOUBLET_LIGHT * light, DOUBLET_LIGHT);
}

/* 1 when a rhythm, its top bit for which part, is lit in this frame. */
DOUBLET_FUNCTION unsigned doublet_lit(struct doublet_frame *f, unsigned rhythm) {
  const unsigned half = rhythm >> 3 & 1;
  const uint8_t bit = (uint8_t)(1u << (rhythm & 7));
  f->used[half] = (uint8_t)(f->used[half] | bit);
  return ((f->first[half] & bit) != 0) != (rhythm >> 7);
}

#ifdef DOUBLET_FADES
#ifdef __AVR__
#define DOUBLET_CONSTANT PROGMEM
#define DOUBLET_SAMPLE(p) pgm_read_byte(p)
#else
#define DOUBLET_CONSTANT
#define DOUBLET_SAMPLE(p) (*(p))
#endif
#define DOUBLET_RISEN 512u /* milliseconds after which nothing changes any more */

/* A lamp's light so long after it was switched on, or off: 0 to 255. */
DOUBLET_FUNCTION unsigned doublet_curve(unsigned on, unsigned milliseconds) {
  static const uint8_t rise[65] DOUBLET_CONSTANT = {
      0, 0, 0, 0, 0, 0, 2, 4, 8, 13, 21, 30, 41, 53, 67, 81,
      95, 109, 123, 135, 148, 160, 170, 180, 189, 197, 204, 210, 216, 221, 225, 229,
      233, 235, 238, 240, 242, 244, 245, 247, 248, 249, 250, 250, 251, 251, 252, 252,
      253, 253, 253, 254, 254, 254, 254, 254, 254, 254, 254, 255, 255, 255, 255, 255,
      255};
  static const uint8_t fall[129] DOUBLET_CONSTANT = {
      255, 225, 199, 177, 158, 142, 127, 114, 103, 93, 84, 76, 69, 63, 57, 53,
      48, 44, 40, 37, 34, 31, 29, 27, 25, 23, 21, 20, 18, 17, 16, 15,
      14, 13, 12, 11, 11, 9, 9, 9, 8, 8, 7, 7, 6, 6, 6, 5,
      5, 5, 4, 4, 4, 4, 4, 3, 3, 3, 3, 3, 3, 2, 2, 2,
      2, 2, 2, 2, 2, 2, 2, 1, 1, 1, 1, 1, 1, 1, 1, 1,
      1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1,
      0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
      0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
      0};
  const uint8_t *samples = on ? rise : fall;
  const unsigned shift = on ? 3 : 2, step = 1u << shift;
  unsigned part;
  if (milliseconds >= DOUBLET_RISEN) milliseconds = DOUBLET_RISEN - 1;
  part = milliseconds & (step - 1);
  samples += milliseconds >> shift;
  return (DOUBLET_SAMPLE(samples) * (step - part) + DOUBLET_SAMPLE(samples + 1) * part + step / 2) >>
         shift;
}

/* The colour of a light; 0 is dark. */
DOUBLET_FUNCTION unsigned doublet_colour(const struct doublet *d, unsigned light) {
  return light > doublet_u8(d, 16) ? doublet_u8(d, doublet_flashing(d, light)) : light;
}

/* How far its rhythm lets a light shine. */
DOUBLET_FUNCTION unsigned doublet_level(struct doublet_frame *f, unsigned light,
                                        unsigned filament) {
  const struct doublet *d = f->signals;
  unsigned rhythm, lit, into, period, first;
  if (light == 0) return 0;
  if (light <= doublet_u8(d, 16)) return 255;
  rhythm = doublet_u8(d, doublet_flashing(d, light) + 1);
  lit = doublet_lit(f, rhythm);
  if (!filament) return lit ? 255 : 0;
  f->quiet = 0;
  period = doublet_rhythm(d, rhythm);
  first = doublet_u16(d, period + 2);
  period = doublet_u16(d, period);
  into = doublet_into(f->now, (uint16_t)period);
  if (into >= first) into -= first;
  if (lit) return doublet_curve(1, into);
  if (rhythm & DOUBLET_TOP) first = first < period ? period - first : 0;
  return doublet_scaled(doublet_curve(0, into), doublet_curve(1, first));
}

/* The light of the frame's LED in a state of its unit; 0 is dark. */
DOUBLET_FUNCTION unsigned doublet_light(const struct doublet *d, unsigned kind, unsigned state,
                                        unsigned led) {
  if (state & DOUBLET_TOP) return 0;
  return doublet_u8(
      d, doublet_in(d, doublet_u16(d, kind + 2) + (doublet_u8(d, kind + 1) & DOUBLET_LOW) +
                           state * doublet_u8(d, kind) + led, 1));
}

/* The bytes of one LED of a unit that fades. */
DOUBLET_FUNCTION void doublet_glow(struct doublet_frame *f, uint8_t *bytes) {
  const struct doublet *d = f->signals;
  const unsigned place = f->unit - 1u;
  const uint8_t *unit = d->state + DOUBLET_UNIT * (place < d->units ? place : 0);
  const unsigned kind = doublet_in(d, f->lights, DOUBLET_KIND);
  const unsigned leds = doublet_u8(d, kind), led = leds - 1 - f->leds;
  const unsigned now = doublet_light(d, kind, unit[0], led);
  const unsigned was = doublet_light(d, kind, unit[DOUBLET_UNIT - 2], led);
  unsigned colour = doublet_colour(d, now), before = doublet_colour(d, was);
  unsigned manner = 0, middle, level, rest = 0, i;
  if (doublet_u8(d, kind + 10) & DOUBLET_TOP)
    manner = doublet_u8(d, doublet_in(d, doublet_u16(d, kind + 2) +
                                (doublet_u8(d, kind + 1) & DOUBLET_LOW) * (leds + 1) + led, 1));
  middle = manner & DOUBLET_LOW;
  level = doublet_level(f, now, manner & DOUBLET_TOP);
  if (now != was) {
    const unsigned age = (((unsigned)(f->now >> 2) - unit[DOUBLET_UNIT - 1]) & 255u) * 4u;
    if (middle && now && was) {
      if (3 * age < DOUBLET_SWING)
        colour = before;
      else if (3 * age < 2 * DOUBLET_SWING && colour != before && colour != middle && before != middle)
        colour = middle;
    } else if (manner & DOUBLET_TOP) {
      rest = doublet_scaled(doublet_level(f, was, 1), doublet_curve(0, age));
      if (colour != before) level = doublet_scaled(level, doublet_curve(1, age));
    }
  }
  colour = doublet_in(d, f->palette + f->channels * colour, 4);
  before = doublet_in(d, f->palette + f->channels * before, 4);
  for (i = 0; i < f->channels; i++) {
    const unsigned risen = level ? doublet_scaled(doublet_u8(d, colour + i), level) : 0;
    const unsigned fallen = rest ? doublet_scaled(doublet_u8(d, before + i), rest) : 0;
    bytes[i] = (uint8_t)(risen > fallen ? risen : fallen);
  }
}
#endif

/* ---- For sketches: opening ---- */

/*
 * Opens a table of exactly so many bytes; state must have DOUBLET_UNIT bytes for each unit. Every
 * unit is then at its rest state.
 */
DOUBLET_FUNCTION enum doublet_reason doublet_open(struct doublet *d, const uint8_t *table,
                                                  size_t size, uint8_t *state,
                                                  size_t state_size) {
  enum doublet_reason reason = DOUBLET_TOO_SHORT;
  d->table = table;
  d->state = state;
  d->length = (uint16_t)size;
  d->units = 0;
  d->buses = d->chains = d->night = d->test = 0;
  if (table && size >= DOUBLET_HEADER + DOUBLET_SUM) {
    reason = size > 65535u ? DOUBLET_WRONG_LENGTH : doublet_refusal(d, size, state_size);
  }
  if (reason) d->units = d->buses = d->chains = 0;
  return reason;
}

/* How many units the table has. */
DOUBLET_INLINE uint16_t doublet_units(const struct doublet *d) { return d->units; }

/* The table's checksum, as it stands at its end; 0 when no table is open. */
DOUBLET_FUNCTION uint32_t doublet_checksum(const struct doublet *d) {
  return d->units ? doublet_u32(d, d->length - DOUBLET_SUM) : 0;
}

/* The lowest and highest binary address of units on a DCC bus, so that an interrupt can drop other
 * packets; broadcasts to 2047 are for all. The lowest is over the highest when there is none. */
DOUBLET_FUNCTION void doublet_range(const struct doublet *d, uint8_t bus, uint16_t *lowest,
                                    uint16_t *highest) {
  const unsigned at = doublet_in(d, DOUBLET_HEADER + DOUBLET_BUS * bus, DOUBLET_BUS);
  *lowest = 1;
  *highest = 0;
  if (bus >= d->buses) return;
  *lowest = (uint16_t)doublet_u16(d, at + 2);
  *highest = (uint16_t)doublet_u16(d, at + 4);
}

/* ---- For sketches: commands. All return how many units it was for. ---- */

/* A basic accessory command that switches an output on: binary address 0 to 2047; output 1 is
 * normal, 0 reverse. */
DOUBLET_INLINE uint16_t doublet_accessory(struct doublet *d, uint8_t bus, uint16_t address,
                                          uint8_t output, uint32_t now) {
  return doublet_dcc(d, bus, 1, address, output & 1u, (uint16_t)now);
}

/* An extended accessory command: binary address 0 to 2047, of which 2047 is every unit. */
DOUBLET_INLINE uint16_t doublet_extended(struct doublet *d, uint8_t bus, uint16_t address,
                                         uint8_t value, uint32_t now) {
  return doublet_dcc(d, bus, 0, address, value, (uint16_t)now);
}

/* A whole DCC packet, first byte to error byte; does nothing unless it is an accessory's. */
DOUBLET_FUNCTION uint16_t doublet_packet(struct doublet *d, uint8_t bus, const uint8_t *packet,
                                         size_t length, uint32_t now) {
  const unsigned basic = length == 3;
  unsigned first, second, value;
  if (length != 4 && !basic) return 0;
  first = packet[0] ^ 0x80u;
  second = packet[1];
  value = packet[2];
  if (basic) {
    if (value != (first ^ 0x80 ^ second) || (second & 0x88) != 0x88) return 0;
    value = second & 1;
  } else if (packet[3] != (first ^ 0x80 ^ second ^ value) || (second & 0x89) != 0x01) {
    return 0;
  }
  if (first > 0x3F) return 0;
  return doublet_dcc(d, bus, basic, first << 2 | (~second & 0x70) << 4 | (second >> 1 & 3), value,
                     (uint16_t)now);
}

#ifndef DOUBLET_NO_TOPICS
DOUBLET_FUNCTION unsigned doublet_is_space(char c) {
  return c == 32 || (c >= 9 && c <= 13);
}

/* The checksum of part of a text, letters A to Z as a to z if folded. */
DOUBLET_FUNCTION uint32_t doublet_sum_of(const char *text, size_t from, size_t to,
                                         unsigned folded) {
  uint32_t sum = 0xFFFFFFFFu;
  for (; from < to; from++) {
    uint8_t byte = (uint8_t)text[from];
    if (folded && byte >= 65 && byte <= 90) byte = (uint8_t)(byte + 32);
    sum = doublet_sum(sum, byte);
  }
  return ~sum;
}

/* An MQTT message; the payload is a name, or a number in decimal digits. */
DOUBLET_FUNCTION uint16_t doublet_topic(struct doublet *d, uint8_t bus, const char *topic,
                                        size_t topic_length, const char *payload,
                                        size_t payload_length, uint32_t now) {
  const unsigned at = doublet_in(d, DOUBLET_HEADER + DOUBLET_BUS * bus, DOUBLET_BUS);
  uint32_t wanted, name;
  unsigned low = 0, high, first, value, taken = 0;
  size_t i;
  if (bus >= d->buses || doublet_u8(d, at) != 1) return 0;
  wanted = doublet_sum_of(topic, 0, topic_length, 0);
  while (payload_length > 0 && doublet_is_space(payload[payload_length - 1])) payload_length--;
  for (i = 0; i < payload_length && doublet_is_space(payload[i]); i++) continue;
  name = doublet_sum_of(payload, i, payload_length, 1);
  value = i < payload_length ? 0 : DOUBLET_NOTHING;
  for (; i < payload_length && value < DOUBLET_NOTHING; i++) {
    const unsigned digit = (uint8_t)payload[i] - (unsigned)'0';
    value = digit > 9 ? DOUBLET_NOTHING : 10 * value + digit;
  }
  first = doublet_u16(d, at + 6);
  high = doublet_u16(d, at + 8);
  while (low < high) {
    const unsigned middle = (low + high) >> 1;
    if (doublet_u32(d, first + 7 * middle) > wanted)
      high = middle;
    else
      low = middle + 1;
  }
  for (first += 7 * low; low > 0; low--) {
    unsigned record, unit, kind, state, names, states;
    first -= 7;
    record = doublet_in(d, first, 7);
    if (doublet_u32(d, record) != wanted) break;
    unit = doublet_u16(d, record + 4);
    kind = doublet_kind(d, doublet_u8(d, record + 6));
    if (unit >= d->units) continue;
    if (doublet_u8(d, kind + 6) & 0x20) {
      states = doublet_u8(d, kind + 1) & DOUBLET_LOW;
      names = doublet_u16(d, kind + 4);
      for (state = 0; state < states && doublet_u32(d, names) != name; state++) names += 4;
      if (state == states) state = DOUBLET_NOTHING;
    } else {
      state = doublet_called(d, kind, value);
    }
    doublet_show(d, d->state + DOUBLET_UNIT * unit, kind, state, (uint16_t)now);
    taken++;
  }
  return (uint16_t)taken;
}
#endif

#ifndef DOUBLET_NO_EVENTS
/* Calls a state up on a unit, if the event means one. */
DOUBLET_FUNCTION unsigned doublet_called_up(struct doublet *d, unsigned unit, unsigned kind,
                                            unsigned state, uint32_t now) {
  if (unit >= d->units || state >= DOUBLET_NOTHING) return 0;
  doublet_show(d, d->state + DOUBLET_UNIT * unit, kind, state, (uint16_t)now);
  return 1;
}

/* An OpenLCB event, its first byte the most significant. */
DOUBLET_FUNCTION uint16_t doublet_event(struct doublet *d, uint8_t bus, uint64_t event,
                                        uint32_t now) {
  const unsigned at = doublet_in(d, DOUBLET_HEADER + DOUBLET_BUS * bus, DOUBLET_BUS);
  uint32_t reach;
  unsigned low = 0, high, first, taken = 0;
  if (bus >= d->buses || doublet_u8(d, at) != 2) return 0;
  first = doublet_u16(d, at + 6);
  high = doublet_u16(d, at + 8);
  reach = doublet_u32(d, at + 2);
  while (low < high) {
    const unsigned middle = (low + high) >> 1, record = first + 14 * middle;
    const uint64_t key = doublet_u32(d, record) | (uint64_t)doublet_u32(d, record + 4) << 32;
    if (key > event)
      high = middle;
    else
      low = middle + 1;
  }
  for (first += 14 * low; low > 0; low--) {
    unsigned record, step, units, kinds, unit;
    uint32_t value;
    uint64_t far;
    first -= 14;
    record = doublet_in(d, first, 14);
    far = event - (doublet_u32(d, record) | (uint64_t)doublet_u32(d, record + 4) << 32);
    if (far > reach) break;
    value = (uint32_t)far;
    step = doublet_u16(d, record + 8);
    units = doublet_u8(d, record + 10);
    kinds = doublet_u8(d, record + 11);
    unit = doublet_u16(d, record + 12);
    if (units == 0) {
      if (value == 0) taken += doublet_called_up(d, unit, doublet_kind(d, kinds), step, now);
      continue;
    }
    for (; units > 0; units--, unit++) {
      const unsigned kind = doublet_kind(d, kinds);
      if (value < DOUBLET_NOTHING)
        taken += doublet_called_up(d, unit, kind, doublet_called(d, kind, (unsigned)value), now);
      if (value < step) break;
      value -= step;
      kinds = doublet_behind(d, kinds);
    }
  }
  return (uint16_t)taken;
}
#endif

/* ---- For sketches: units one by one ---- */

/* The number of the aspect that a unit shows now; 0 when there is no such unit. */
DOUBLET_FUNCTION uint8_t doublet_aspect(struct doublet *d, uint16_t unit, uint32_t now) {
  uint8_t *state;
  unsigned kind;
  if (unit >= d->units) return 0;
  state = d->state + DOUBLET_UNIT * unit;
  kind = doublet_of(d, unit);
  doublet_settle(d, state, kind, (uint16_t)now);
  return (uint8_t)doublet_u8(d, doublet_in(d, doublet_u16(d, kind + 2) + (state[0] & DOUBLET_LOW), 1));
}

/* Shows the aspect of a number on a unit, whatever its commands say: for push-buttons and tests.
 * Returns 1, or 0 when there is no such unit, or it has no such aspect. */
DOUBLET_FUNCTION uint8_t doublet_set(struct doublet *d, uint16_t unit, uint8_t number,
                                     uint32_t now) {
  uint8_t *state;
  unsigned i, at, kind;
  if (unit >= d->units) return 0;
  state = d->state + DOUBLET_UNIT * unit;
  kind = doublet_of(d, unit);
  at = doublet_u16(d, kind + 2);
  for (i = 0; i < (doublet_u8(d, kind + 1) & DOUBLET_LOW); i++) {
    if (doublet_u8(d, doublet_in(d, at + i, 1)) == number) {
#ifndef DOUBLET_NO_SETTLING
      state[2] = 0;
#endif
      doublet_show(d, state, kind, i, (uint16_t)now);
      return 1;
    }
  }
  return 0;
}

/* By night, chains that have drives for the night send those. At opening it is day. */
DOUBLET_INLINE void doublet_set_night(struct doublet *d, uint8_t on) { d->night = on; }

/* Lamp test: every lamp shows one colour, from 1 in the order of the table; 0 ends it. */
DOUBLET_INLINE void doublet_set_test(struct doublet *d, uint8_t colour) { d->test = colour; }

/*
 * Says whether a train approaches a unit; does nothing to units that are not lit on approach. After
 * opening all are lit, so a sketch that never calls this never darkens a signal.
 */
DOUBLET_FUNCTION void doublet_set_approach(struct doublet *d, uint16_t unit, uint8_t on,
                                           uint32_t now) {
  uint8_t *state;
  if (unit >= d->units) return;
  state = d->state + DOUBLET_UNIT * unit;
  if (doublet_u8(d, doublet_of(d, unit) + 6) & DOUBLET_TOP)
    doublet_turn(state, (state[0] & DOUBLET_LOW) | (on ? 0 : DOUBLET_TOP), (uint16_t)now);
}

/* ---- For sketches: saving ---- */

#define DOUBLET_SAVED 8u /* bytes of saved states, beside one a unit */

DOUBLET_FUNCTION void doublet_put(uint8_t *bytes, uint32_t value) {
  unsigned i;
  for (i = 0; i < 4; i++, value >>= 8) bytes[i] = (uint8_t)value;
}

DOUBLET_FUNCTION uint32_t doublet_sum_of_saved(const uint8_t *bytes, size_t count) {
  uint32_t sum = 0xFFFFFFFFu;
  size_t i;
  for (i = 0; i < count; i++) sum = doublet_sum(sum, bytes[i]);
  return ~sum;
}

/* Saves what every unit shows. Returns how many bytes: DOUBLET_SAVED and one a unit; 0 when they do
 * not fit. */
DOUBLET_FUNCTION size_t doublet_save(const struct doublet *d, uint8_t *bytes, size_t size) {
  unsigned unit;
  if (d->units == 0 || size < d->units + (size_t)DOUBLET_SAVED) return 0;
  for (unit = 0; unit < d->units; unit++) bytes[unit] = d->state[DOUBLET_UNIT * unit] & DOUBLET_LOW;
  doublet_put(bytes + d->units, doublet_checksum(d));
  doublet_put(bytes + d->units + 4, doublet_sum_of_saved(bytes, d->units + (size_t)4));
  return d->units + (size_t)DOUBLET_SAVED;
}

/* Takes saved states back: at once, and those that the same table saved. Returns 1, or 0 when it
 * was another table, or the bytes are damaged; then nothing changes. */
DOUBLET_FUNCTION uint8_t doublet_restore(struct doublet *d, const uint8_t *bytes, size_t size) {
  uint8_t sums[8];
  struct doublet_frame walk;
  unsigned i, chain;
  if (d->units == 0 || size != d->units + (size_t)DOUBLET_SAVED) return 0;
  doublet_put(sums, doublet_checksum(d));
  doublet_put(sums + 4, doublet_sum_of_saved(bytes, size - 4));
  for (i = 0; i < 8; i++)
    if (bytes[d->units + i] != sums[i]) return 0;
  for (chain = 0; chain < d->chains; chain++) {
    unsigned kind;
    doublet_walk(&walk, d, chain);
    while ((kind = doublet_step(&walk, d)) != 0) {
      uint8_t saved, *unit;
      i = walk.unit - 1u;
      if (i >= d->units) break;
      saved = bytes[i];
      unit = d->state + DOUBLET_UNIT * i;
      if (saved < (doublet_u8(d, kind + 1) & DOUBLET_LOW)) {
        unit[0] = (uint8_t)((unit[0] & DOUBLET_TOP) | saved);
#ifdef DOUBLET_FADES
        unit[DOUBLET_UNIT - 2] = unit[0];
#endif
      }
    }
  }
  return 1;
}

/* ---- For sketches: frames ---- */

/* Begins a frame of a chain; without such a chain it has no LEDs. */
DOUBLET_FUNCTION void doublet_begin(struct doublet_frame *f, struct doublet *d, uint8_t chain,
                                    uint32_t now) {
  unsigned at, i;
  for (i = 0; i < sizeof *f; i++) ((uint8_t *)f)[i] = 0;
  f->signals = d;
  f->now = now;
  f->quiet = 65535u;
  if (chain >= d->chains) return;
  at = doublet_walk(f, d, chain);
  f->channels = (uint8_t)(((doublet_u8(d, at + 2) - 1) & 3) + 1);
  f->palette = (uint16_t)(doublet_u16(d, at + 3) - f->channels);
  if (d->night && doublet_u8(d, at + 2) & DOUBLET_TOP)
    f->palette = (uint16_t)(f->palette + f->channels * doublet_u8(d, 16));
  for (i = 0; i < doublet_u8(d, 14) && i < DOUBLET_RHYTHMS; i++) {
    at = doublet_rhythm(d, i);
    if (doublet_into(now, (uint16_t)doublet_u16(d, at)) < doublet_u16(d, at + 2))
      f->first[i >> 3] = (uint8_t)(f->first[i >> 3] | 1u << (i & 7));
  }
}

/* Goes on to the next LED of a unit; 0 when only dark ones come. */
DOUBLET_FUNCTION unsigned doublet_go_on(struct doublet_frame *f) {
  struct doublet *d = f->signals;
  const unsigned kind = doublet_step(f, d);
  unsigned waits = f->unit - 1u;
  uint8_t *unit;
  if (!kind || waits >= d->units) {
    f->dark = f->left;
    return 0;
  }
  unit = d->state + DOUBLET_UNIT * waits;
  waits = 16 * doublet_settle(d, unit, kind, (uint16_t)f->now);
  if (waits && f->quiet > waits) f->quiet = (uint16_t)waits;
  f->leds = (uint8_t)doublet_u8(d, kind);
#ifdef DOUBLET_FADES
  f->lights = (uint16_t)kind;
  if (unit[DOUBLET_UNIT - 2] != unit[0]) {
    if ((uint8_t)((uint8_t)(f->now >> 2) - unit[DOUBLET_UNIT - 1]) >= DOUBLET_RISEN / 4)
      unit[DOUBLET_UNIT - 2] = unit[0];
    else
      f->quiet = 0;
  }
#else
  f->lights = (uint16_t)(doublet_u16(d, kind + 2) + (doublet_u8(d, kind + 1) & DOUBLET_LOW) +
                         (unit[0] & DOUBLET_LOW) * f->leds);
  if (unit[0] & DOUBLET_TOP && !d->test) {
    f->dark = (uint16_t)(f->dark + f->leds);
    f->leds = 0;
  }
#endif
  return 1;
}

/*
 * The bytes of the frame's next LED, at most 4, in the order sent. Returns how many; 0 when the
 * chain has no more. The time may start anywhere; a flash is cut once when it wraps, after 49 days.
 */
DOUBLET_FUNCTION uint8_t doublet_next(struct doublet_frame *f, uint8_t *bytes) {
  const struct doublet *d = f->signals;
  unsigned light = 0, i;
  if (f->left == 0) return 0;
  while (f->dark == 0 && f->leds == 0)
    if (!doublet_go_on(f)) break;
  f->left--;
  if (f->dark) {
    f->dark--;
  } else {
    f->leds--;
    light = d->test;
#ifdef DOUBLET_FADES
    if (!light) {
      doublet_glow(f, bytes);
      return f->channels;
    }
#else
    if (!light) light = doublet_u8(d, doublet_in(d, f->lights++, 1));
    if (light > doublet_u8(d, 16)) {
      i = doublet_flashing(d, light);
      light = doublet_lit(f, doublet_u8(d, i + 1)) ? doublet_u8(d, i) : 0;
    }
#endif
  }
  if (light) {
    light = doublet_in(d, f->palette + f->channels * light, 4);
    for (i = 0; i < f->channels; i++) bytes[i] = (uint8_t)doublet_u8(d, light + i);
  } else {
    for (i = 0; i < f->channels; i++) bytes[i] = 0;
  }
  return f->channels;
}

/*
 * The bytes of all LEDs of a chain, for a sketch that has room for them. Returns how many were
 * written: 0 when there is no such chain, or they do not fit.
 */
DOUBLET_FUNCTION size_t doublet_leds(struct doublet *d, uint8_t chain, uint32_t now,
                                     uint8_t *bytes, size_t size) {
  struct doublet_frame frame;
  uint8_t led[4] = {0, 0, 0, 0}, count, i;
  size_t written = 0;
  doublet_begin(&frame, d, chain, now);
  if (frame.left * (uint32_t)frame.channels > size) return 0;
  while ((count = doublet_next(&frame, led)) > 0)
    for (i = 0; i < count && written < size; i++) bytes[written++] = led[i];
  return written;
}

/*
 * Milliseconds for which a frame's LEDs stay as they were sent, if no call but frames comes: 0 to
 * 65,535. Ask after the last LED. While units wait to settle, or lamps fade, a frame is due then;
 * without them LEDs that need no refresh may rest.
 */
DOUBLET_FUNCTION uint16_t doublet_quiet(const struct doublet_frame *f) {
  const struct doublet *d = f->signals;
  unsigned i, quiet = f->quiet;
  for (i = 0; i < DOUBLET_RHYTHMS; i++) {
    if (f->used[i >> 3] >> (i & 7) & 1) {
      const unsigned at = doublet_rhythm(d, i);
      unsigned edge = doublet_u16(d, at + 2);
      const unsigned into = doublet_into(f->now, (uint16_t)doublet_u16(d, at));
      if (into >= edge) edge = doublet_u16(d, at);
      if (quiet > edge - into) quiet = edge - into;
    }
  }
  return (uint16_t)quiet;
}

#ifdef DOUBLET_WORDS
/* A refusal in words, for a sketch that can print. */
DOUBLET_FUNCTION const char *doublet_reason_words(enum doublet_reason reason) {
  switch (reason) {
    case DOUBLET_OK: return "sound";
    case DOUBLET_TOO_SHORT: return "too few bytes for a table";
    case DOUBLET_NOT_A_TABLE: return "not a table: other first bytes";
    case DOUBLET_OTHER_VERSION: return "a format version this reader does not know";
    case DOUBLET_WRONG_LENGTH: return "cut short, or followed by more";
    case DOUBLET_WRONG_CHECKSUM: return "damaged: the checksum does not fit";
    case DOUBLET_LEFT_OUT: return "it needs what this reader leaves out";
    case DOUBLET_STATE_TOO_SMALL: return "too little memory for the state of the signals";
    case DOUBLET_NOT_SOUND: return "the checksum fits, but the contents do not add up";
  }
  return "";
}
#endif

#endif
