/* SPDX-License-Identifier: 0BSD OR Apache-2.0 */
/*
 * The reader of Doublet tables, format version 3 (table.md beside the compiler's table package).
 *
 * C99 and C++. No heap, no floats, no recursion, nothing static but constants. Opening checks the
 * checksum, indices and how units hang on chains, so that no command looks at more units than there
 * are; after it every place in the table is held inside the table and every unit inside the state, so
 * that any bytes are safe, also those that change later. It is one file with its reason: a sketch
 * includes it and needs nothing else.
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
 *   DOUBLET_SERVOS        doublet_servo says how servos stand that move arms; without it arms are
 *                         left alone, whatever the table says
 *   DOUBLET_NO_SETTLING   leaves out settling, and its byte of state a unit
 *   DOUBLET_NO_TOPICS     leaves out MQTT
 *   DOUBLET_NO_EVENTS     leaves out OpenLCB
 *   DOUBLET_NO_NUMERALS   leaves out numerals
 *   DOUBLET_NO_LEVELS     leaves out signals that are less bright than others of their chain
 *   DOUBLET_NO_CHIPS      leaves out driver chips, whose channels have a light each
 *   DOUBLET_NO_FRAMES     leaves out frames and the calls that ask of one unit; opening does not
 *                         look at chains
 *   DOUBLET_WORDS         reasons of refusal in words
 * A table that needs what was left out is refused.
 */
#ifndef DOUBLET_READER_H
#define DOUBLET_READER_H

#include <stddef.h>
#include <stdint.h>
#include <string.h>

#ifdef __AVR__
#include <avr/pgmspace.h>
#endif
#ifndef DOUBLET_BYTE
#ifdef __AVR__
#define DOUBLET_BYTE(p) pgm_read_byte(p)
#define DOUBLET_WORD(p) pgm_read_word(p)
#else
#define DOUBLET_BYTE(p) (*(p))
#endif
#endif

#ifdef DOUBLET_NO_SETTLING
#define DOUBLET_SETTLES 0u
#else
#define DOUBLET_SETTLES 1u
#endif
#ifdef DOUBLET_NO_LEVELS
#define DOUBLET_LEVELS 0u
#else
#define DOUBLET_LEVELS 16u
#endif
#ifdef DOUBLET_NO_CHIPS
#define DOUBLET_CHIPS 0u
#else
#define DOUBLET_CHIPS 32u
#endif
#ifdef DOUBLET_FADES
#define DOUBLET_UNIT (4u + DOUBLET_SETTLES)
#define DOUBLET_RISEN 512u /* milliseconds after which nothing changes any more */
#ifndef DOUBLET_SWING
#define DOUBLET_SWING 300u
#endif
#if DOUBLET_SWING < 3 || DOUBLET_SWING > 510
#error "DOUBLET_SWING is 3 to 510 milliseconds"
#endif
#else
#define DOUBLET_UNIT (2u + DOUBLET_SETTLES)
#endif

/* What a sketch calls once is best put where it is called, so that is left to the compiler. A few
 * functions stay functions, as it would copy them too often, or have LEDs that are dark pay for those
 * that glow. A program that has the bytes, and no time, says how functions begin before it includes
 * this. */
#ifdef __GNUC__
#ifndef DOUBLET_FUNCTION
#define DOUBLET_FUNCTION static __attribute__((unused))
#endif
#define DOUBLET_APART static __attribute__((unused, noinline))
#define DOUBLET_INLINE static inline __attribute__((unused, always_inline))
#else
#define DOUBLET_FUNCTION static inline
#define DOUBLET_APART static inline
#define DOUBLET_INLINE static inline
#endif
/* Some are called so often that chips run faster by a fifth without the call. */
#ifdef __wasm__
#define DOUBLET_QUICK DOUBLET_FUNCTION
#else
#define DOUBLET_QUICK DOUBLET_INLINE
#endif

/* An open table. After a refusal it holds nothing, and every call does nothing. */
struct doublet {
  const uint8_t *table;
  uint8_t *state;   /* each unit: the state, exclusive-or the rest state (top bit: dark for want of a
                       train); bits received (low half), bits known (high); when a packet came; what
                       the first byte was before its fade, and since when */
  uint8_t *unit;    /* the state of the unit that is looked at, its kind, and the time */
  const uint8_t *kind;
  uint16_t now;
  uint16_t limit;   /* bytes before the checksum */
  uint16_t kinds;   /* where sections begin */
  uint16_t cycles;
  uint16_t units;
  uint16_t value;   /* of an accessory command: an output, or an aspect's number */
  uint16_t taken;   /* how many units a command was for */
  uint8_t run;      /* the kinds of a command's units */
  uint8_t colours;
  uint8_t test;     /* not 0: the colour that all lamps show */
  uint8_t buses;
  uint8_t chains;
  uint8_t night;    /* not 0: the palettes for night are shown */
};

#ifndef DOUBLET_NO_FRAMES
/* A frame of a chain that is under way. */
struct doublet_frame {
  struct doublet *signals;
  uint32_t now;
  uint16_t left;    /* LEDs behind those of this unit */
  uint16_t dark;    /* dark ones before those of this unit */
  uint16_t at;      /* the next place */
  uint16_t unit;    /* the next unit */
  uint16_t lights;  /* the light of the next LED; with a numeral the state, as it is remembered,
                       plus 256; 0: dark */
  uint16_t palette; /* bytes of colour 0, were there any */
  uint16_t quiet;   /* milliseconds in which fades and settling change nothing */
#ifndef DOUBLET_NO_LEVELS
  uint16_t levels;  /* behind the level of the next unit; 0 where all are as bright */
  uint16_t bright;  /* bytes of colour 0 at the first level */
  uint16_t step;    /* bytes of a level */
#endif
#if defined(DOUBLET_FADES) || !defined(DOUBLET_NO_NUMERALS)
  uint16_t kind;    /* of this unit */
#endif
#ifndef DOUBLET_NO_CHIPS
#ifdef DOUBLET_FADES
  uint8_t light;    /* how many of its lights were taken */
#endif
  uint8_t chips;    /* not 0: each channel of its LEDs has a light */
#endif
  uint8_t channels; /* top bit: this unit fades */
  uint8_t run;      /* units to come of this run; top bit: each behind dark LEDs */
  uint8_t leds;     /* LEDs to come of this unit */
  uint8_t kinds;    /* the run of kinds */
  uint8_t first[2]; /* which rhythms are in their first part */
  uint8_t used[2];  /* which rhythms were met */
};
#endif

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

/* What a table may need. */
#ifdef DOUBLET_NO_TOPICS
#define DOUBLET_TOPICS 0u
#else
#define DOUBLET_TOPICS 4u
#endif
#ifdef DOUBLET_NO_EVENTS
#define DOUBLET_EVENTS 0u
#else
#define DOUBLET_EVENTS 8u
#endif
#ifdef DOUBLET_NO_NUMERALS
#define DOUBLET_NUMERALS 0u
#else
#define DOUBLET_NUMERALS 0x40u
#endif
#define DOUBLET_KNOWN \
  (DOUBLET_SETTLES | 2u | DOUBLET_TOPICS | DOUBLET_EVENTS | DOUBLET_LEVELS | DOUBLET_CHIPS | \
   DOUBLET_NUMERALS | DOUBLET_TOP)

#define DOUBLET_VERSION 3u
#define DOUBLET_HEADER 30u
#define DOUBLET_SUM 4u
#define DOUBLET_BUS 11u
#define DOUBLET_CHAIN 9u
#define DOUBLET_RECORD 5u
#define DOUBLET_TOPIC 7u
#define DOUBLET_EVENT 14u
#define DOUBLET_RHYTHM 4u
#define DOUBLET_FLASH 2u
#define DOUBLET_KIND 11u
#define DOUBLET_SERVO 6u
#define DOUBLET_BROADCAST 2047u
#define DOUBLET_LOW 0x7Fu     /* the number in a byte whose top bit says more */
#define DOUBLET_TOP 0x80u
#define DOUBLET_NOTHING 256u  /* no value */
#define DOUBLET_NO_STATE 0x80u

/* Where the header says where sections begin. */
enum doublet_section {
  DOUBLET_CHAINS = 18,
  DOUBLET_RHYTHMS = 20,
  DOUBLET_FLASHES = 22,
  DOUBLET_KINDS = 24,
  DOUBLET_CYCLES = 26
};

DOUBLET_INLINE uint16_t doublet_u16(const uint8_t *p) {
#ifdef DOUBLET_WORD
  return DOUBLET_WORD(p);
#else
  return (uint16_t)(DOUBLET_BYTE(p) | (uint16_t)DOUBLET_BYTE(p + 1) << 8);
#endif
}

#if !defined(DOUBLET_NO_TOPICS) || !defined(DOUBLET_NO_EVENTS)
DOUBLET_APART uint32_t doublet_u32(const uint8_t *p) {
  return doublet_u16(p) | (uint32_t)doublet_u16(p + 2) << 16;
}
#endif

/* As much as 16 bits hold. */
DOUBLET_INLINE uint16_t doublet_times(uint8_t many, uint8_t size) {
  return (uint16_t)((uint16_t)many * size);
}

/* Up to five bytes inside the table: those at a place before the checksum, whose four lie behind,
 * or else the first. */
DOUBLET_QUICK const uint8_t *doublet_within(const struct doublet *d, uint16_t at) {
  if (at >= d->limit) at = 0;
  return d->table + at;
}

/* The same where it need not be quick. */
DOUBLET_FUNCTION const uint8_t *doublet_at(const struct doublet *d, uint16_t at) {
  return doublet_within(d, at);
}

/* One of them. */
DOUBLET_FUNCTION uint8_t doublet_byte(const struct doublet *d, uint16_t at) {
  return DOUBLET_BYTE(doublet_within(d, at));
}

/* A record of at most 30 bytes among those of its size, or the table's first bytes. */
DOUBLET_APART const uint8_t *doublet_record(const struct doublet *d, uint16_t at, uint16_t place,
                                            uint8_t size) {
  at = (uint16_t)(at + place * size);
  if (at > (uint16_t)(d->limit - size)) at = 0;
  return d->table + at;
}

/* The kind of a run's next unit; the run goes on to the one behind it. */
DOUBLET_FUNCTION const uint8_t *doublet_kind(const struct doublet *d, uint8_t *run) {
  uint8_t kind = *run;
  uint16_t at;
  if (kind & DOUBLET_TOP) {
    const uint16_t pair =
        doublet_u16(doublet_within(d, (uint16_t)(d->cycles + (kind & DOUBLET_LOW))));
    uint8_t next = (uint8_t)(pair >> 8);
    if (!(next & DOUBLET_TOP)) next = (uint8_t)(kind + 1) | DOUBLET_TOP;
    *run = next;
    kind = (uint8_t)pair;
  }
  at = (uint16_t)(d->kinds + doublet_times(kind, DOUBLET_KIND));
  if (at > (uint16_t)(d->limit - DOUBLET_KIND)) at = 0;
  return d->table + at;
}

/* CRC-32C, one byte on; begin with all ones, and complement the end. Tables would be faster, and
 * take more bytes than any other part of this reader. */
DOUBLET_FUNCTION uint32_t doublet_sum(uint32_t sum, uint8_t byte) {
  uint8_t bit;
  sum ^= byte;
  for (bit = 8; bit > 0; bit--) {
    const uint8_t odd = (uint8_t)(sum & 1);
    sum >>= 1;
    if (odd) sum ^= 0x82F63B78u;
  }
  return sum;
}

/* The state that a value calls up on the kind, or none. */
DOUBLET_FUNCTION uint8_t doublet_called(const struct doublet *d, uint8_t value) {
  const uint8_t *p = d->kind, *end;
  const uint8_t states = DOUBLET_BYTE(p + 1);
  uint8_t count = states & DOUBLET_LOW, i;
  uint16_t at = doublet_u16(p + 4), behind;
  if (at)
    count = doublet_byte(d, at++);
  else
    at = (uint16_t)(doublet_u16(p + 2) - count);
  behind = (uint16_t)(at + count);
  if (at >= d->limit || behind > d->limit) return DOUBLET_NO_STATE;
  p = d->table + at;
  end = d->table + behind;
  for (i = 0; p < end; p++, i++) {
    if (DOUBLET_BYTE(p) == value) {
      if (states & DOUBLET_TOP) i = doublet_byte(d, (uint16_t)(behind + i));
      return i & DOUBLET_LOW;
    }
  }
  return DOUBLET_NO_STATE;
}

/* Changes the first byte of the unit. */
DOUBLET_FUNCTION void doublet_turn(struct doublet *d, uint8_t to) {
  uint8_t *unit = d->unit;
#ifdef DOUBLET_FADES
  uint8_t *fade = unit + DOUBLET_UNIT - 2;
  const uint8_t time = (uint8_t)(d->now >> 2);
  if (to != unit[0] && (fade[0] == unit[0] || (uint8_t)(time - fade[1]) >= 32)) {
    fade[0] = unit[0];
    fade[1] = time;
  }
#endif
  unit[0] = to;
}

/* Shows a state; none is the rest state, unless the present one is to stay. */
DOUBLET_FUNCTION void doublet_show(struct doublet *d, uint8_t state) {
  const uint8_t rest = DOUBLET_BYTE(d->kind + 8);
  if (state & DOUBLET_NO_STATE) {
    if (DOUBLET_BYTE(d->kind + 6) & 0x40) return;
    state = rest;
  }
  doublet_turn(d, (uint8_t)((d->unit[0] & DOUBLET_TOP) | ((state ^ rest) & DOUBLET_LOW)));
}

/* Calls up what the bits of the unit say, once all are known. */
DOUBLET_FUNCTION void doublet_decide(struct doublet *d) {
  const uint8_t bits = d->unit[1];
  uint8_t known = bits >> 4, count = DOUBLET_BYTE(d->kind + 7);
  for (; count > 0; count--, known >>= 1)
    if (!(known & 1)) return;
  doublet_show(d, doublet_called(d, bits & 15));
}

#ifndef DOUBLET_NO_SETTLING
/* Sees whether the unit, if it waits for packets, has settled; returns how many steps it still
 * waits. */
DOUBLET_FUNCTION uint8_t doublet_settle(struct doublet *d) {
  uint8_t *since = d->unit + 2;
  if (*since) {
    const uint8_t age = (uint8_t)((d->now >> 4) - *since) & DOUBLET_LOW;
    const uint8_t settling = DOUBLET_BYTE(d->kind + 10) & 63;
    if (age <= settling) return (uint8_t)(settling + 1 - age);
    *since = 0;
    doublet_decide(d);
  }
  return 0;
}
#endif

/* A bus of some sort; the header where there is none. */
DOUBLET_FUNCTION const uint8_t *doublet_bus(const struct doublet *d, uint8_t bus, uint8_t carries) {
  const uint8_t *p = d->table;
  if (bus < d->buses) {
    p = doublet_record(d, DOUBLET_HEADER, bus, DOUBLET_BUS);
    if ((DOUBLET_BYTE(p) & 3) != carries) p = d->table;
  }
  return p;
}

/* Takes the output of a basic command to the address at a place among those of the unit, whose
 * addresses are bits. */
DOUBLET_FUNCTION void doublet_bit(struct doublet *d, uint8_t place) {
  const uint8_t mode = DOUBLET_BYTE(d->kind + 6);
  uint8_t *const unit = d->unit;
  uint8_t bit = 0x11;
#ifndef DOUBLET_NO_SETTLING
  doublet_settle(d);
#endif
  if (!(mode & 0x10)) place = (uint8_t)(DOUBLET_BYTE(d->kind + 7) - 1 - place);
  for (place &= 3; place > 0; place--) bit = (uint8_t)(bit << 1);
  unit[1] |= bit;
  bit &= 15;
  if ((uint8_t)d->value != (mode >> 3 & 1)) unit[1] ^= bit;
#ifndef DOUBLET_NO_SETTLING
  if (DOUBLET_BYTE(d->kind + 10) & 63) {
    unit[2] = (uint8_t)(DOUBLET_TOP | d->now >> 4);
    return;
  }
#endif
  doublet_decide(d);
}

/* Takes an accessory command to the address at a place among those of a unit of the kind, if it is
 * of their sort. */
DOUBLET_FUNCTION void doublet_take(struct doublet *d, uint16_t unit, uint8_t place, uint8_t basic) {
  const uint8_t mode = DOUBLET_BYTE(d->kind + 6) & 7;
  uint8_t value = (uint8_t)d->value;
  if ((mode != 0) != basic || unit >= d->units) return;
  d->taken++;
  d->unit = d->state + DOUBLET_UNIT * unit;
  if (basic) {
    if (mode & 1) {
      doublet_bit(d, place);
      return;
    }
    value = (uint8_t)(value + 2u * place);
  }
  doublet_show(d, d->value < DOUBLET_NOTHING ? doublet_called(d, value) : DOUBLET_NO_STATE);
}

/* Takes an accessory command for all units that it is for, and counts them. */
DOUBLET_FUNCTION uint16_t doublet_dcc(struct doublet *d, uint8_t bus, uint16_t address,
                                      uint8_t basic) {
  const uint8_t *p = doublet_bus(d, bus, 0);
  uint16_t index, at, high;
  uint8_t looks, all = 0;
  if (p == d->table) return 0;
  d->taken = 0;
  index = at = doublet_u16(p + 6);
  high = doublet_u16(p + 8);
  looks = DOUBLET_BYTE(p + 10);
  if (!basic) {
    if (DOUBLET_BYTE(p + 1) == 5 && d->value > 31) d->value = DOUBLET_NOTHING;
    if (address == DOUBLET_BROADCAST) all = looks = 255;
  }
  /* The end of the records that begin at most at this address. */
  while (high > 0) {
    const uint16_t half = high >> 1, middle = (uint16_t)(at + DOUBLET_RECORD * half);
    if ((doublet_u16(doublet_within(d, middle)) & 2047) > address) {
      high = half;
    } else {
      at = (uint16_t)(middle + DOUBLET_RECORD);
      high = (uint16_t)(high - half - 1);
    }
  }
  while (at != index && looks > 0) {
    uint16_t unit, behind;
    uint8_t units, far;
    if (looks < 255) looks--;
    at = (uint16_t)(at - DOUBLET_RECORD);
    p = doublet_within(d, at);
    behind = (uint16_t)(address - (doublet_u16(p) & 2047));
    if (behind > 255 && !all) continue;
    far = (uint8_t)behind;
    units = DOUBLET_BYTE(p + 1) >> 3;
    unit = doublet_u16(p + 2);
    d->run = DOUBLET_BYTE(p + 4);
    if (unit & 0x8000u) {
      if (far > 0) continue;
      far = units;
      units = 0;
      unit &= 0x7FFF;
    }
    do {
      uint8_t addresses;
      p = d->kind = doublet_kind(d, &d->run);
      addresses = DOUBLET_BYTE(p + 7);
      /* Units of one kind are stepped over at once. */
      if (!all && !(d->run & DOUBLET_TOP))
        for (; far >= addresses && units > 0; units--, unit++) far = (uint8_t)(far - addresses);
      if (all || far < addresses) {
        doublet_take(d, unit, far, basic);
        if (!all) break;
      }
      far = (uint8_t)(far - addresses);
      unit++;
    } while (units-- > 0);
  }
  return d->taken;
}

#ifndef DOUBLET_NO_FRAMES
/* Milliseconds since a rhythm began anew: a remainder, bit by bit, as 16 bits hold it. */
DOUBLET_FUNCTION uint16_t doublet_into(uint32_t now, uint16_t period) {
  uint16_t rest = (uint16_t)(now >> 16);
  uint8_t bit = 16;
  if (rest < period) {
    now <<= 16;
  } else {
    rest = 0;
    bit = 32;
  }
  for (; bit > 0; bit--) {
    const uint16_t over = rest & 0x8000u;
    rest = (uint16_t)(rest << 1);
    if (now & 0x80000000u) rest |= 1;
    now <<= 1;
    if (over || rest >= period) rest = (uint16_t)(rest - period);
  }
  return rest;
}

/* The bytes of an LED. */
DOUBLET_INLINE uint8_t doublet_channels(const struct doublet_frame *f) {
#ifdef DOUBLET_FADES
  return (uint8_t)(((f->channels - 1u) & 3u) + 1u);
#else
  return f->channels;
#endif
}

/* How many lights a picture of a kind has. */
DOUBLET_INLINE uint8_t doublet_lights(const struct doublet_frame *f, const uint8_t *kind) {
  uint8_t lights = DOUBLET_BYTE(kind);
#ifndef DOUBLET_NO_CHIPS
  if (DOUBLET_BYTE(kind + 10) & 0x40) lights = (uint8_t)(lights * doublet_channels(f));
#else
  (void)f;
#endif
  return lights;
}

/* Where the picture of a kind begins for the first byte of a unit. */
DOUBLET_INLINE uint16_t doublet_picture(const uint8_t *kind, uint8_t byte, uint8_t lights) {
  return (uint16_t)(doublet_u16(kind + 2) +
                    doublet_times((byte ^ DOUBLET_BYTE(kind + 8)) & DOUBLET_LOW, lights));
}

#ifndef DOUBLET_NO_NUMERALS
/* The pictures of a kind with a numeral begin with so many bytes. */
#define DOUBLET_NUMERAL 4u

/* Where the light of an LED is on a kind with a numeral, for the first byte of a unit. */
DOUBLET_FUNCTION uint16_t doublet_numeral(const struct doublet *d, const uint8_t *kind,
                                          uint8_t byte, uint8_t led) {
  const uint16_t at = doublet_u16(kind + 2);
  const uint8_t *p = doublet_at(d, at);
  const uint8_t width = DOUBLET_BYTE(p + 1), inside = (uint8_t)(led - DOUBLET_BYTE(p));
  const uint8_t size = (uint8_t)(DOUBLET_BYTE(kind) + 1 - width); /* of a row */
  const uint16_t rows =
      (uint16_t)(at + DOUBLET_NUMERAL + (DOUBLET_BYTE(kind + 1) & DOUBLET_LOW));
  uint8_t state = (byte ^ DOUBLET_BYTE(kind + 8)) & DOUBLET_LOW;
  const uint8_t row = doublet_byte(d, (uint16_t)(at + DOUBLET_NUMERAL + state));
  uint16_t place = (uint16_t)(rows + doublet_times(row, size));
  if (inside < width) {
    state = (uint8_t)(state - doublet_byte(d, place));
    place = (uint16_t)(rows + doublet_times(DOUBLET_BYTE(p + 2), size));
    return (uint16_t)(place + doublet_times(state, width) + inside);
  }
  if (led >= DOUBLET_BYTE(p)) led = (uint8_t)(led - width);
  return (uint16_t)(place + 1 + led);
}
#endif

/* A record of a section. */
DOUBLET_FUNCTION const uint8_t *doublet_in(const struct doublet *d, uint8_t section, uint8_t place,
                                           uint8_t size) {
  return doublet_record(d, doublet_u16(d->table + section), place, size);
}

/* Begins to walk over the units of a chain that is there. */
DOUBLET_FUNCTION const uint8_t *doublet_walk(struct doublet_frame *f, struct doublet *d,
                                             uint8_t chain) {
  const uint8_t *p = doublet_in(d, DOUBLET_CHAINS, chain, DOUBLET_CHAIN);
  f->signals = d;
  f->left = doublet_u16(p);
  f->at = doublet_u16(p + 5);
  f->unit = doublet_u16(p + 7);
  f->run = f->kinds = f->channels = 0;
  return p;
}

/* The next byte of the places. */
DOUBLET_FUNCTION uint8_t doublet_fetch(struct doublet_frame *f) {
  return DOUBLET_BYTE(doublet_within(f->signals, f->at++));
}

/* Goes on to a chain's next unit and sees it, or to dark LEDs; 0 when the chain has no more. What
 * hangs otherwise than it should ends the chain, behind a unit that is not there. */
DOUBLET_FUNCTION uint8_t doublet_go_on(struct doublet_frame *f) {
  struct doublet *const d = f->signals;
  const uint8_t *kind = d->table;
  uint16_t dark = 0, needed = 0, place = 0;
  uint8_t run = f->run, leds = 0, *unit;
  if (f->left == 0) return 0;
  if ((run & DOUBLET_LOW) == 0) {
    run = doublet_fetch(f);
    f->kinds = doublet_fetch(f);
    dark = doublet_fetch(f);
  } else if (run & DOUBLET_TOP) {
    dark = doublet_fetch(f);
  }
  if (run & DOUBLET_LOW) {
    f->run = (uint8_t)(run - 1);
    kind = doublet_kind(d, &f->kinds);
    if (f->unit < d->units) {
      place = f->unit;
      leds = DOUBLET_BYTE(kind);
    }
    f->unit++;
    if (leds) needed = (uint16_t)(dark + leds);
  } else if (run) {
    needed = dark = (uint16_t)(dark << 8 | f->kinds);
  }
  if (needed == 0 || needed > f->left) {
    if (run) f->unit = 65535u;
    needed = dark = f->left;
    leds = 0;
  }
  f->dark = dark;
  f->leds = leds;
  f->left = (uint16_t)(f->left - needed);
  if (leds == 0) return 1;
  if (f->channels == 0) {
    d->kind = kind;
    return 1;
  }
  unit = d->state + DOUBLET_UNIT * place;
#ifndef DOUBLET_NO_SETTLING
  if (unit[2]) {
    uint16_t waits;
    d->unit = unit;
    d->kind = kind;
    d->now = (uint16_t)f->now;
    waits = doublet_settle(d);
    if (waits > 0) {
      waits = (uint16_t)(16 * waits - (d->now & 15));
      if (f->quiet > waits) f->quiet = waits;
    }
  }
#endif
#ifndef DOUBLET_NO_LEVELS
  if (f->levels) f->palette = (uint16_t)(f->bright + f->step * doublet_byte(d, --f->levels));
#endif
#ifndef DOUBLET_NO_CHIPS
  f->chips = DOUBLET_BYTE(kind + 10) & 0x40;
#endif
  f->lights = doublet_picture(kind, unit[0], doublet_lights(f, kind));
#if defined(DOUBLET_FADES) || !defined(DOUBLET_NO_NUMERALS)
  f->kind = (uint16_t)(kind - d->table);
#endif
#ifndef DOUBLET_NO_NUMERALS
  if (DOUBLET_BYTE(kind + 8) & DOUBLET_TOP) f->lights = 256u | unit[0];
#endif
#ifdef DOUBLET_FADES
#ifndef DOUBLET_NO_CHIPS
  f->light = 0;
#endif
  if (unit[0] & DOUBLET_TOP) f->lights = 0;
  f->channels &= DOUBLET_LOW;
  if (unit[DOUBLET_UNIT - 2] != unit[0]) {
    if ((uint8_t)((uint8_t)(f->now >> 2) - unit[DOUBLET_UNIT - 1]) >= DOUBLET_RISEN / 4) {
      unit[DOUBLET_UNIT - 2] = unit[0];
    } else {
      f->quiet = 0;
      f->channels |= DOUBLET_TOP;
    }
  }
#else
  if (unit[0] & DOUBLET_TOP && !d->test) {
    f->dark = needed;
    f->leds = 0;
  }
#endif
  return 1;
}

/* The kind of a unit that is to be looked at; NULL when there is no such unit, or the table has
 * changed. */
DOUBLET_FUNCTION const uint8_t *doublet_find(struct doublet *d, uint16_t unit, uint32_t now) {
  struct doublet_frame walk;
  uint8_t chain = d->chains;
  if (unit >= d->units) return NULL;
  d->now = (uint16_t)now;
  d->unit = d->state + DOUBLET_UNIT * unit;
  d->kind = d->table;
  do {
    if (chain == 0) return NULL;
    doublet_walk(&walk, d, --chain);
  } while (walk.unit > unit);
  do {
    if (!doublet_go_on(&walk)) return NULL;
  } while (walk.unit <= unit);
  return walk.unit - unit == 1 ? d->kind : NULL;
}

/* The number of a state of the kind. */
DOUBLET_FUNCTION uint8_t doublet_number(const struct doublet *d, uint8_t state) {
  const uint8_t *kind = d->kind;
  return doublet_byte(d, (uint16_t)(doublet_u16(kind + 2) - (DOUBLET_BYTE(kind + 1) & DOUBLET_LOW) + state));
}

/* 1 when the places of all chains make up the units, each with an LED, and not too many LEDs. */
DOUBLET_FUNCTION uint8_t doublet_hangs(struct doublet *d) {
  struct doublet_frame walk;
  uint16_t unit = 0, leds = 0;
  uint8_t chain;
  for (chain = 0; chain < d->chains; chain++) {
    doublet_walk(&walk, d, chain);
    leds = (uint16_t)(leds + walk.left);
    if (walk.unit != unit || leds < walk.left) return 0;
    while (doublet_go_on(&walk)) continue;
    unit = walk.unit;
  }
  return unit == d->units;
}
#endif

#ifndef DOUBLET_NO_FRAMES
/* A flashing light. */
DOUBLET_FUNCTION const uint8_t *doublet_flash(const struct doublet *d, uint8_t light) {
  return doublet_in(d, DOUBLET_FLASHES, (uint8_t)(light - d->colours - 1), DOUBLET_FLASH);
}

/* 1 when a flashing light is lit in this frame. */
DOUBLET_FUNCTION uint8_t doublet_lit(struct doublet_frame *f, const uint8_t *flash) {
  const uint8_t rhythm = DOUBLET_BYTE(flash + 1);
  const uint8_t half = rhythm >> 3 & 1;
  uint8_t bit = 1, i;
  for (i = rhythm & 7; i > 0; i--) bit = (uint8_t)(bit << 1);
  f->used[half] |= bit;
  return ((f->first[half] & bit) != 0) != (rhythm >> 7);
}

/* A rhythm. */
DOUBLET_FUNCTION const uint8_t *doublet_rhythm(const struct doublet *d, uint8_t rhythm) {
  return doublet_in(d, DOUBLET_RHYTHMS, rhythm & 15, DOUBLET_RHYTHM);
}

#ifdef DOUBLET_FADES
/* Where the light of an LED is, for the first byte of a unit. */
DOUBLET_INLINE uint16_t doublet_light(const struct doublet *d, const uint8_t *kind, uint8_t byte,
                                      uint8_t led, uint8_t lights) {
#ifndef DOUBLET_NO_NUMERALS
  if (DOUBLET_BYTE(kind + 8) & DOUBLET_TOP) return doublet_numeral(d, kind, byte, led);
#else
  (void)d;
#endif
  return (uint16_t)(doublet_picture(kind, byte, lights) + led);
}

/* Where it is told how a kind's LEDs glow. */
DOUBLET_INLINE uint16_t doublet_manners(const struct doublet *d, const uint8_t *kind,
                                        uint8_t lights) {
  const uint16_t at = doublet_u16(kind + 2);
  const uint8_t states = DOUBLET_BYTE(kind + 1) & DOUBLET_LOW;
#ifndef DOUBLET_NO_NUMERALS
  if (DOUBLET_BYTE(kind + 8) & DOUBLET_TOP) {
    const uint8_t *p = doublet_at(d, at);
    const uint8_t width = DOUBLET_BYTE(p + 1);
    return (uint16_t)(at + DOUBLET_NUMERAL + states +
                      doublet_times(DOUBLET_BYTE(p + 2), (uint8_t)(lights + 1 - width)) +
                      doublet_times(DOUBLET_BYTE(p + 3), width));
  }
#else
  (void)d;
#endif
  return (uint16_t)(at + doublet_times(states, lights));
}

#ifdef __AVR__
#define DOUBLET_CONSTANT PROGMEM
#define DOUBLET_SAMPLE(p) pgm_read_byte(p)
#else
#define DOUBLET_CONSTANT
#define DOUBLET_SAMPLE(p) (*(p))
#endif

/* A lamp's light so long after it was switched on, or off: 0 to 255. */
DOUBLET_FUNCTION uint8_t doublet_curve(uint8_t on, uint16_t milliseconds) {
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
  uint8_t part;
  if (milliseconds >= DOUBLET_RISEN) milliseconds = DOUBLET_RISEN - 1;
  if (!on) milliseconds = (uint16_t)(milliseconds << 1);
  part = milliseconds & 7;
  samples += milliseconds >> 3;
  return (uint8_t)((DOUBLET_SAMPLE(samples) * (8 - part) + DOUBLET_SAMPLE(samples + 1) * part + 4) >> 3);
}

/* A level, or a drive at a level: divided by 255 and rounded. */
DOUBLET_FUNCTION uint8_t doublet_scaled(uint8_t full, uint8_t level) {
  const uint16_t product = (uint16_t)((uint16_t)full * level + 128u);
  return (uint8_t)((uint16_t)(product + (product >> 8)) >> 8);
}

/* How far its rhythm lets a light shine. */
DOUBLET_FUNCTION uint8_t doublet_level(struct doublet_frame *f, uint8_t light, uint8_t filament) {
  const struct doublet *d = f->signals;
  const uint8_t *flash, *rhythm;
  uint16_t into, period, first;
  uint8_t lit;
  if (light == 0) return 0;
  if (light <= d->colours) return 255;
  flash = doublet_flash(d, light);
  lit = doublet_lit(f, flash);
  if (!filament) return lit ? 255 : 0;
  f->quiet = 0;
  rhythm = doublet_rhythm(d, DOUBLET_BYTE(flash + 1));
  period = doublet_u16(rhythm);
  first = doublet_u16(rhythm + 2);
  into = doublet_into(f->now, period);
  if (into >= first) into = (uint16_t)(into - first);
  if (lit) return doublet_curve(1, into);
  if (DOUBLET_BYTE(flash + 1) & DOUBLET_TOP) first = first < period ? (uint16_t)(period - first) : 0;
  return doublet_scaled(doublet_curve(0, into), doublet_curve(1, first));
}

/* The bytes of one LED that fades or flashes, by its light. */
DOUBLET_APART uint8_t doublet_glow(struct doublet_frame *f, uint8_t now, uint8_t *bytes) {
  const struct doublet *d = f->signals;
  const uint16_t place = (uint16_t)(f->unit - 1u);
  const uint8_t *unit = d->state + DOUBLET_UNIT * (place < d->units ? place : 0u), *fresh, *old;
  const uint8_t *kind = doublet_record(d, f->kind, 0, DOUBLET_KIND);
  const uint8_t leds = doublet_lights(f, kind);
#ifdef DOUBLET_NO_CHIPS
  const uint8_t led = (uint8_t)(leds - 1 - f->leds);
#else
  const uint8_t led = (uint8_t)(f->light - 1);
#endif
  uint8_t was = now, colour, before, manner = 0, middle, level, rest = 0, i;
  if (f->channels & DOUBLET_TOP) {
    i = unit[DOUBLET_UNIT - 2];
    was = 0;
    if (!(i & DOUBLET_TOP))
      was = doublet_byte(d, doublet_light(d, kind, i, led, leds));
  }
  colour = now > d->colours ? DOUBLET_BYTE(doublet_flash(d, now)) : now;
  before = was > d->colours ? DOUBLET_BYTE(doublet_flash(d, was)) : was;
  if (DOUBLET_BYTE(kind + 10) & DOUBLET_TOP)
    manner = doublet_byte(d, (uint16_t)(doublet_manners(d, kind, leds) + led));
  middle = manner & DOUBLET_LOW;
  level = doublet_level(f, now, manner & DOUBLET_TOP);
  if (now != was) {
    const uint16_t age = (uint16_t)((uint8_t)((uint8_t)(f->now >> 2) - unit[DOUBLET_UNIT - 1]) * 4u);
    if (middle && now && was) {
      if (3 * age < DOUBLET_SWING)
        colour = before;
      else if (3 * age < 2 * DOUBLET_SWING && colour != before && colour != middle &&
               before != middle)
        colour = middle;
    } else if (manner & DOUBLET_TOP) {
      rest = doublet_scaled(doublet_level(f, was, 1), doublet_curve(0, age));
      if (colour != before) level = doublet_scaled(level, doublet_curve(1, age));
    }
  }
  i = doublet_channels(f);
  fresh = doublet_at(d, (uint16_t)(f->palette + doublet_times(i, colour)));
  old = doublet_at(d, (uint16_t)(f->palette + doublet_times(i, before)));
  /*@ loop unroll 4; */
  for (; i > 0; i--) {
    const uint8_t risen = level ? doublet_scaled(DOUBLET_BYTE(fresh), level) : 0;
    const uint8_t fallen = rest ? doublet_scaled(DOUBLET_BYTE(old), rest) : 0;
    *bytes++ = risen > fallen ? risen : fallen;
    fresh++;
    old++;
  }
  return doublet_channels(f);
}
#else
/* The colour of a flashing light in this frame, or dark. */
DOUBLET_FUNCTION uint8_t doublet_flashing(struct doublet_frame *f, uint8_t light) {
  const uint8_t *flash = doublet_flash(f->signals, light);
  return doublet_lit(f, flash) ? DOUBLET_BYTE(flash) : 0;
}
#endif
#endif

/* ---- For sketches: opening ---- */

/* 1 when indices lie in the table, each in bytes of its own, and have no more units than there are;
 * addresses rise, and the upper two bytes of other keys. */
DOUBLET_FUNCTION uint8_t doublet_rises(const struct doublet *d) {
  uint16_t left = d->units, room = d->limit;
  uint8_t i;
  for (i = 0; i < d->buses; i++) {
    const uint8_t *p = doublet_record(d, DOUBLET_HEADER, i, DOUBLET_BUS);
    uint16_t at = doublet_u16(p + 6), records = doublet_u16(p + 8), last = 0;
#if DOUBLET_TOPICS || DOUBLET_EVENTS
    const uint8_t carries = DOUBLET_BYTE(p) & 3;
    const uint8_t size = carries == 0 ? DOUBLET_RECORD : carries == 1 ? DOUBLET_TOPIC : DOUBLET_EVENT;
#else
    const uint8_t carries = 0, size = DOUBLET_RECORD;
#endif
    for (; records > 0; records--) {
      uint8_t units = 1;
      uint16_t key;
      if (at > (uint16_t)(d->limit - size) || room < size) return 0;
      p = doublet_within(d, (uint16_t)(at + (carries ? (2u << carries) - 2 : 0)));
      key = doublet_u16(p);
      if (carries == 2) units = doublet_byte(d, (uint16_t)(at + 10));
      if (carries == 0) {
        units = DOUBLET_BYTE(p + 3) & DOUBLET_TOP ? 0 : (uint8_t)((key >> 11) + 1);
        key &= 2047;
      }
      if (left < units || key < last) return 0;
      last = key;
      left = (uint16_t)(left - units);
      room = (uint16_t)(room - size);
      at = (uint16_t)(at + size);
    }
  }
  return 1;
}

/*
 * Opens a table of exactly so many bytes; state must have DOUBLET_UNIT bytes for each unit. Every
 * unit is then at its rest state.
 */
DOUBLET_FUNCTION enum doublet_reason doublet_open(struct doublet *d, const uint8_t *table,
                                                  size_t size, uint8_t *state,
                                                  size_t state_size) {
  const uint8_t *p = table;
  enum doublet_reason reason;
  uint32_t sum = 0xFFFFFFFFu;
  size_t i;
  memset(d, 0, sizeof *d);
  d->table = table;
  d->unit = d->state = state;
  d->limit = (uint16_t)(size - DOUBLET_SUM);
  reason = DOUBLET_TOO_SHORT;
  if (!table || size < DOUBLET_HEADER + DOUBLET_SUM) return reason;
  reason = DOUBLET_NOT_A_TABLE;
  if (doublet_u16(p) != 0x4244u || doublet_u16(p + 2) != 0x544Cu) return reason;
  reason = DOUBLET_OTHER_VERSION;
  if (DOUBLET_BYTE(p + 4) != DOUBLET_VERSION) return reason;
  reason = DOUBLET_WRONG_LENGTH;
  if (doublet_u16(p + 6) != size) return reason;
  for (i = 0; i < size; i++) sum = doublet_sum(sum, DOUBLET_BYTE(p + i));
  reason = DOUBLET_WRONG_CHECKSUM;
  if (sum != 0xB798B438u) return reason;
  reason = DOUBLET_LEFT_OUT;
  if (DOUBLET_BYTE(p + 5) & (uint8_t)~DOUBLET_KNOWN) return reason;
  i = doublet_u16(p + 10);
  reason = DOUBLET_STATE_TOO_SMALL;
  if (state_size / DOUBLET_UNIT < i) return reason; /* no product to wrap */
  d->units = (uint16_t)i;
  memset(state, 0, DOUBLET_UNIT * i);
  d->buses = DOUBLET_BYTE(p + 12);
  d->kinds = doublet_u16(p + DOUBLET_KINDS);
  d->cycles = doublet_u16(p + DOUBLET_CYCLES);
#ifndef DOUBLET_NO_FRAMES
  d->chains = DOUBLET_BYTE(p + 13);
  d->colours = DOUBLET_BYTE(p + 16);
  if (!doublet_rises(d) || !doublet_hangs(d)) {
#else
  if (!doublet_rises(d)) {
#endif
    d->units = d->buses = d->chains = 0;
    return DOUBLET_NOT_SOUND;
  }
  return DOUBLET_OK;
}

/* How many units the table has. */
DOUBLET_INLINE uint16_t doublet_units(const struct doublet *d) { return d->units; }

/* The table's checksum, as the generated header has it; 0 when no table is open. */
DOUBLET_FUNCTION uint32_t doublet_checksum(const struct doublet *d) {
  const uint8_t *p = d->table + d->limit;
  return d->units ? doublet_u16(p) | (uint32_t)doublet_u16(p + 2) << 16 : 0;
}

/* The lowest and highest binary address of units on a DCC bus, so that an interrupt can drop other
 * packets; broadcasts to 2047 are for all. The lowest is over the highest when there is none. */
DOUBLET_FUNCTION void doublet_range(const struct doublet *d, uint8_t bus, uint16_t *lowest,
                                    uint16_t *highest) {
  const uint8_t *p = doublet_bus(d, bus, 0);
  *lowest = p == d->table ? 1 : doublet_u16(p + 2);
  *highest = p == d->table ? 0 : doublet_u16(p + 4);
}

/* ---- For sketches: commands. All return how many units it was for. ---- */

/* A basic accessory command that switches an output on: binary address 0 to 2047; output 1 is
 * normal, 0 reverse. */
DOUBLET_INLINE uint16_t doublet_accessory(struct doublet *d, uint8_t bus, uint16_t address,
                                          uint8_t output, uint32_t now) {
  d->value = output & 1;
  d->now = (uint16_t)now;
  return doublet_dcc(d, bus, address, 1);
}

/* An extended accessory command: binary address 0 to 2047, of which 2047 is every unit. */
DOUBLET_INLINE uint16_t doublet_extended(struct doublet *d, uint8_t bus, uint16_t address,
                                         uint8_t value, uint32_t now) {
  d->value = value;
  d->now = (uint16_t)now;
  return doublet_dcc(d, bus, address, 0);
}

/* A whole DCC packet, first byte to error byte; does nothing unless it is an accessory's. */
DOUBLET_FUNCTION uint16_t doublet_packet(struct doublet *d, uint8_t bus, const uint8_t *packet,
                                         size_t length, uint32_t now) {
  uint8_t first, second, value, error;
  if (length - 3 > 1) return 0;
  first = packet[0] ^ 0x80;
  second = packet[1];
  value = packet[2];
  error = (uint8_t)(first ^ 0x80 ^ second ^ value);
  if (first > 0x3F) return 0;
  if (length == 4) {
    if (error != packet[3] || (second & 0x89) != 0x01) return 0;
  } else {
    if (error || (second & 0x88) != 0x88) return 0;
    value = second & 1;
  }
  d->value = value;
  d->now = (uint16_t)now;
  return doublet_dcc(
      d, bus,
      (uint16_t)(((second & 0x70u) ^ 0x70u) << 4 | (unsigned)(first << 2 | (second >> 1 & 3))),
      length == 3);
}

#if !defined(DOUBLET_NO_TOPICS) || !defined(DOUBLET_NO_EVENTS)
/* Four bytes of a key. */
DOUBLET_FUNCTION void doublet_key(uint8_t *key, uint32_t number) {
  key[0] = (uint8_t)number;
  key[1] = (uint8_t)(number >> 8);
  key[2] = (uint8_t)(number >> 16);
  key[3] = (uint8_t)(number >> 24);
}

/* How many of the records of a bus have a key that is at most one, whose first byte is the lowest. */
DOUBLET_FUNCTION uint16_t doublet_until(const struct doublet *d, const uint8_t *bus, uint8_t record,
                                        const uint8_t *key, uint8_t bytes) {
  const uint16_t at = doublet_u16(bus + 6);
  uint16_t low = 0, high = doublet_u16(bus + 8);
  while (low < high) {
    const uint16_t middle = (uint16_t)(low + ((uint16_t)(high - low) >> 1));
    const uint8_t *p = doublet_record(d, at, middle, record);
    uint8_t i = bytes;
    do i--;
    while (i > 0 && DOUBLET_BYTE(p + i) == key[i]);
    if (DOUBLET_BYTE(p + i) > key[i])
      high = middle;
    else
      low = (uint16_t)(middle + 1);
  }
  return low;
}
#endif

#ifndef DOUBLET_NO_TOPICS
DOUBLET_FUNCTION uint8_t doublet_is_space(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }

/* The checksum of part of a text, letters A to Z as a to z if folded. */
DOUBLET_FUNCTION uint32_t doublet_sum_of(const char *text, size_t from, size_t to,
                                         uint8_t folded) {
  uint32_t sum = 0xFFFFFFFFu;
  for (; from < to; from++) {
    uint8_t byte = (uint8_t)text[from];
    if (folded && byte >= 65 && byte <= 90) byte |= 32;
    sum = doublet_sum(sum, byte);
  }
  return ~sum;
}

/* The state that a payload calls up by its name, or none. */
DOUBLET_FUNCTION uint8_t doublet_named(const struct doublet *d, uint32_t name) {
  uint8_t states = DOUBLET_BYTE(d->kind + 1) & DOUBLET_LOW, i;
  uint16_t at = doublet_u16(d->kind + 4);
  for (i = 0; i < states; i++, at = (uint16_t)(at + 4))
    if (doublet_u32(doublet_at(d, at)) == name) return i;
  return DOUBLET_NO_STATE;
}

/* An MQTT message; the payload is a name, or a number in decimal digits. */
DOUBLET_FUNCTION uint16_t doublet_topic(struct doublet *d, uint8_t bus, const char *topic,
                                        size_t topic_length, const char *payload,
                                        size_t payload_length, uint32_t now) {
  const uint8_t *p = doublet_bus(d, bus, 1);
  uint32_t wanted, name;
  uint16_t low, at, value, taken = 0;
  uint8_t key[4];
  size_t i;
  if (p == d->table) return 0;
  wanted = doublet_sum_of(topic, 0, topic_length, 0);
  while (payload_length > 0 && doublet_is_space(payload[payload_length - 1])) payload_length--;
  for (i = 0; i < payload_length && doublet_is_space(payload[i]); i++) continue;
  name = doublet_sum_of(payload, i, payload_length, 1);
  value = i < payload_length ? 0 : DOUBLET_NOTHING;
  for (; i < payload_length && value < DOUBLET_NOTHING; i++) {
    const uint8_t digit = (uint8_t)(payload[i] - '0');
    value = digit > 9 ? DOUBLET_NOTHING : (uint16_t)(10 * value + digit);
  }
  doublet_key(key, wanted);
  low = doublet_until(d, p, DOUBLET_TOPIC, key, 4);
  d->now = (uint16_t)now;
  at = doublet_u16(p + 6);
  while (low > 0) {
    uint16_t unit;
    uint8_t state = DOUBLET_NO_STATE;
    p = doublet_record(d, at, --low, DOUBLET_TOPIC);
    if (doublet_u32(p) != wanted) break;
    unit = doublet_u16(p + 4);
    if (unit >= d->units) break;
    d->unit = d->state + DOUBLET_UNIT * unit;
    d->run = DOUBLET_BYTE(p + 6);
    d->kind = doublet_kind(d, &d->run);
    if (DOUBLET_BYTE(d->kind + 6) & 0x20)
      state = doublet_named(d, name);
    else if (value < DOUBLET_NOTHING)
      state = doublet_called(d, (uint8_t)value);
    doublet_show(d, state);
    taken++;
  }
  return taken;
}
#endif

#ifndef DOUBLET_NO_EVENTS
/* How far a record's first event lies before an event, as 16 bits hold it; else 65,535. */
DOUBLET_FUNCTION uint16_t doublet_behind(const uint8_t *key, const uint8_t *record) {
  uint16_t far = 0, left = 0;
  uint8_t i;
  /*@ loop unroll 8; */
  for (i = 0; i < 8; i++) {
    left = (uint16_t)((uint16_t)key[i] - (uint16_t)DOUBLET_BYTE(record + i) - left);
    if (i < 2)
      far = (uint16_t)(far >> 8 | left << 8);
    else if (left & 0xFFu)
      return 65535u;
    left = left >> 15;
  }
  return far;
}

/* An OpenLCB event, its first byte the most significant. */
DOUBLET_FUNCTION uint16_t doublet_event(struct doublet *d, uint8_t bus, uint64_t event,
                                        uint32_t now) {
  const uint8_t *p = doublet_bus(d, bus, 2);
  uint16_t reach, low, at, taken = 0;
  uint8_t key[8], i;
  if (p == d->table) return 0;
  /*@ loop unroll 8; */
  for (i = 0; i < 8; i++, event >>= 8) key[i] = (uint8_t)event;
  reach = doublet_u16(p + 2);
  low = doublet_until(d, p, DOUBLET_EVENT, key, 8);
  d->now = (uint16_t)now;
  at = doublet_u16(p + 6);
  while (low > 0) {
    uint16_t step, unit, value;
    uint8_t units, listed = DOUBLET_NO_STATE;
    p = doublet_record(d, at, --low, DOUBLET_EVENT);
    value = doublet_behind(key, p);
    if (value > reach) break;
    step = doublet_u16(p + 8);
    units = DOUBLET_BYTE(p + 10);
    d->run = DOUBLET_BYTE(p + 11);
    unit = doublet_u16(p + 12);
    if (units == 0) {
      if (value > 0) continue;
      listed = step & DOUBLET_LOW;
      units = 1;
    }
    for (; units > 0 && unit < d->units; units--, unit++) {
      uint8_t state = listed;
      d->kind = doublet_kind(d, &d->run);
      d->unit = d->state + DOUBLET_UNIT * unit;
      if (listed == DOUBLET_NO_STATE && value < DOUBLET_NOTHING)
        state = doublet_called(d, (uint8_t)value);
      if (state < DOUBLET_NO_STATE) {
        doublet_show(d, state);
        taken++;
      }
      if (value < step) break;
      value = (uint16_t)(value - step);
    }
  }
  return taken;
}
#endif

#ifndef DOUBLET_NO_FRAMES
/* ---- For sketches: units one by one ---- */

/* The number of the aspect that a unit shows now; 0 when there is no such unit. */
DOUBLET_FUNCTION uint8_t doublet_aspect(struct doublet *d, uint16_t unit, uint32_t now) {
  d->kind = doublet_find(d, unit, now);
  if (!d->kind) return 0;
#ifndef DOUBLET_NO_SETTLING
  doublet_settle(d);
#endif
  return doublet_number(d, (d->unit[0] ^ DOUBLET_BYTE(d->kind + 8)) & DOUBLET_LOW);
}

/* Shows the aspect of a number on a unit, whatever its commands say: for push-buttons and tests.
 * Returns 1, or 0 when there is no such unit, or it has no such aspect. */
DOUBLET_FUNCTION uint8_t doublet_set(struct doublet *d, uint16_t unit, uint8_t number,
                                     uint32_t now) {
  uint8_t i = 0;
  d->kind = doublet_find(d, unit, now);
  if (!d->kind) return 0;
  for (; i < (DOUBLET_BYTE(d->kind + 1) & DOUBLET_LOW); i++) {
    if (doublet_number(d, i) == number) {
#ifndef DOUBLET_NO_SETTLING
      d->unit[2] = 0;
#endif
      doublet_show(d, i);
      return 1;
    }
  }
  return 0;
}

/*
 * Says whether a train approaches a unit; does nothing to units that are not lit on approach. After
 * opening all are lit, so a sketch that never calls this never darkens a signal.
 */
DOUBLET_FUNCTION void doublet_set_approach(struct doublet *d, uint16_t unit, uint8_t on,
                                           uint32_t now) {
  d->kind = doublet_find(d, unit, now);
  if (d->kind && DOUBLET_BYTE(d->kind + 6) & DOUBLET_TOP)
    doublet_turn(d, (uint8_t)((d->unit[0] & DOUBLET_LOW) | (on ? 0 : DOUBLET_TOP)));
}
#endif

#if defined(DOUBLET_SERVOS) && !defined(DOUBLET_NO_FRAMES)
/* What a sketch remembers of each servo: all 0 at first. */
struct doublet_servo {
  uint16_t pulse;
  uint8_t time;
};

/* How many servos the table moves. */
DOUBLET_INLINE uint8_t doublet_servos(const struct doublet *d) {
  return d->units ? DOUBLET_BYTE(d->table + 29) : 0;
}

/* A servo's record, of those counted from 0. */
DOUBLET_FUNCTION const uint8_t *doublet_servo_record(const struct doublet *d, uint8_t servo) {
  const uint16_t behind = (uint16_t)(d->cycles + DOUBLET_BYTE(d->table + 28));
  return doublet_record(d, behind, servo, DOUBLET_SERVO);
}

/* The channel of a servo. */
DOUBLET_FUNCTION uint8_t doublet_channel(const struct doublet *d, uint8_t servo) {
  return servo < doublet_servos(d) ? DOUBLET_BYTE(doublet_servo_record(d, servo)) : 0;
}

/*
 * The pulse that a servo is to have now, in microseconds: 500 to 2,500, or 0 when there is no such
 * servo. The first time it is that of what its unit shows, then it goes on from there: ask for it
 * before each pulse, and at least every four seconds.
 */
DOUBLET_FUNCTION uint16_t doublet_pulse(struct doublet *d, uint8_t servo, struct doublet_servo *at,
                                        uint32_t now) {
  const uint8_t *p;
  const uint8_t time = (uint8_t)(now >> 4), passed = (uint8_t)(time - at->time);
  uint16_t to, far, pulses;
  if (servo >= doublet_servos(d)) return 0;
  p = doublet_servo_record(d, servo);
  d->kind = doublet_find(d, doublet_u16(p + 1), now);
  if (!d->kind) return 0;
#ifndef DOUBLET_NO_SETTLING
  doublet_settle(d);
#endif
  pulses = doublet_u16(p + 4);
  to = (d->unit[0] ^ DOUBLET_BYTE(d->kind + 8)) & DOUBLET_LOW;
  to = doublet_u16(doublet_at(d, (uint16_t)(pulses + (to << 1))));
  if (to < 500) to = 500;
  if (to > 2500) to = 2500;
  far = doublet_times(passed, DOUBLET_BYTE(p + 3));
  at->time = time;
  if (at->pulse == 0 || (uint16_t)(to > at->pulse ? to - at->pulse : at->pulse - to) <= far)
    at->pulse = to;
  else
    at->pulse = (uint16_t)(to > at->pulse ? at->pulse + far : at->pulse - far);
  return at->pulse;
}
#endif

/* By night, chains that have drives for the night send those. At opening it is day. */
DOUBLET_INLINE void doublet_set_night(struct doublet *d, uint8_t on) { d->night = on; }

/* Lamp test: every lamp shows one colour, from 1 in the order of the table; 0 ends it. */
DOUBLET_INLINE void doublet_set_test(struct doublet *d, uint8_t colour) { d->test = colour; }

/* ---- For sketches: saving ---- */

#define DOUBLET_SAVED 8u /* bytes of saved states, beside one a unit */

/* The checksum of saved bytes. */
DOUBLET_FUNCTION uint32_t doublet_sum_of_saved(const uint8_t *bytes, size_t count) {
  uint32_t sum = 0xFFFFFFFFu;
  size_t i;
  for (i = 0; i < count; i++) sum = doublet_sum(sum, bytes[i]);
  return ~sum;
}

/* Saves what every unit shows. Returns how many bytes: DOUBLET_SAVED and one a unit; 0 when they do
 * not fit. */
DOUBLET_FUNCTION size_t doublet_save(const struct doublet *d, uint8_t *bytes, size_t size) {
  const uint8_t *p = d->table + d->limit;
  const size_t units = d->units;
  uint16_t unit;
  uint8_t i;
  uint32_t sum;
  if (units == 0 || size < units + DOUBLET_SAVED) return 0;
  for (unit = 0; unit < units; unit++) bytes[unit] = d->state[DOUBLET_UNIT * unit] & DOUBLET_LOW;
  for (i = 0; i < 4; i++) bytes[units + i] = DOUBLET_BYTE(p + i);
  sum = doublet_sum_of_saved(bytes, units + 4);
  for (i = 4; i < 8; i++, sum >>= 8) bytes[units + i] = (uint8_t)sum;
  return units + DOUBLET_SAVED;
}

/* Takes saved states back: at once, and those that the same table saved. Returns 1, or 0 when it
 * was another table, or the bytes are damaged; then nothing changes. */
DOUBLET_FUNCTION uint8_t doublet_restore(struct doublet *d, const uint8_t *bytes, size_t size) {
  const uint8_t *p = d->table + d->limit;
  const size_t units = d->units;
  uint32_t sum;
  uint16_t unit;
  uint8_t i;
  if (units == 0 || size != units + DOUBLET_SAVED) return 0;
  sum = doublet_sum_of_saved(bytes, units + 4);
  for (i = 0; i < 4; i++, sum >>= 8)
    if (bytes[units + i] != DOUBLET_BYTE(p + i) || bytes[units + 4 + i] != (uint8_t)sum) return 0;
  for (unit = 0; unit < units; unit++) {
    uint8_t *state = d->state + DOUBLET_UNIT * unit;
    state[0] = (uint8_t)((state[0] & DOUBLET_TOP) | (bytes[unit] & DOUBLET_LOW));
#ifdef DOUBLET_FADES
    state[DOUBLET_UNIT - 2] = state[0];
#endif
  }
  return 1;
}

#ifndef DOUBLET_NO_FRAMES
/* ---- For sketches: frames ---- */

/* Begins a frame of a chain; without such a chain it has no LEDs. */
DOUBLET_FUNCTION void doublet_begin(struct doublet_frame *f, struct doublet *d, uint8_t chain,
                                    uint32_t now) {
  const uint8_t *p;
  uint8_t i, bit;
  memset(f, 0, sizeof *f);
  f->signals = d;
  f->now = now;
  f->quiet = 65535u;
  f->channels = 1;
  if (chain >= d->chains) return;
  p = doublet_walk(f, d, chain);
  i = DOUBLET_BYTE(p + 2);
  f->channels = (uint8_t)(((i - 1) & 3) + 1);
  f->palette = (uint16_t)(doublet_u16(p + 3) - f->channels);
  if (d->night && i & DOUBLET_TOP)
    f->palette = (uint16_t)(f->palette + doublet_times(f->channels, d->colours));
#ifndef DOUBLET_NO_LEVELS
  f->bright = f->palette;
  f->step = doublet_times(f->channels, d->colours);
  if (i & DOUBLET_TOP) f->step = (uint16_t)(f->step << 1);
  if (i & 0x40) f->levels = doublet_u16(p + 3);
#endif
  for (i = 0, bit = 1; i < DOUBLET_BYTE(d->table + 14) && i < 16; i++) {
    p = doublet_rhythm(d, i);
    if (doublet_into(now, doublet_u16(p)) < doublet_u16(p + 2)) f->first[i >> 3] |= bit;
    bit = (uint8_t)(bit << 1);
    if (bit == 0) bit = 1;
  }
}

/* The bytes of an LED of one colour, or dark. Returns how many. */
DOUBLET_FUNCTION uint8_t doublet_shine(const struct doublet_frame *f, uint8_t light,
                                       uint8_t *bytes) {
  const uint8_t channels = doublet_channels(f);
  uint8_t i = channels;
  if (light == 0) {
    /*@ loop unroll 4; */
    do *bytes++ = 0;
    while (--i > 0);
  } else {
    const uint8_t *p =
        doublet_within(f->signals, (uint16_t)(f->palette + doublet_times(channels, light)));
    /*@ loop unroll 4; */
    do *bytes++ = DOUBLET_BYTE(p++);
    while (--i > 0);
  }
  return channels;
}

/* The light of an LED; leds has been counted down for it. */
DOUBLET_INLINE uint8_t doublet_next_light(struct doublet_frame *f) {
  const struct doublet *d = f->signals;
#ifndef DOUBLET_NO_NUMERALS
  const uint8_t *kind = d->table + f->kind;
  if (DOUBLET_BYTE(kind + 8) & DOUBLET_TOP)
    return doublet_byte(d, doublet_numeral(d, kind, (uint8_t)f->lights,
                                           (uint8_t)(DOUBLET_BYTE(kind) - 1 - f->leds)));
#endif
  return DOUBLET_BYTE(doublet_within(d, f->lights++));
}

/* The bytes of an LED by the next light of its unit. */
DOUBLET_QUICK uint8_t doublet_lamp(struct doublet_frame *f, uint8_t *bytes) {
  const struct doublet *d = f->signals;
  uint8_t light = 0;
#ifdef DOUBLET_FADES
#ifndef DOUBLET_NO_CHIPS
  f->light++;
#endif
  if (f->lights) light = doublet_next_light(f);
  if (light > d->colours || f->channels & DOUBLET_TOP) return doublet_glow(f, light, bytes);
#else
  light = doublet_next_light(f);
  if (light > d->colours) light = doublet_flashing(f, light);
#endif
  return doublet_shine(f, light, bytes);
}

/*
 * The bytes of the frame's next LED, at most 4, in the order sent. Returns how many; 0 when the
 * chain has no more. The time may start anywhere; a flash is cut once when it wraps, after 49 days.
 */
DOUBLET_FUNCTION uint8_t doublet_next(struct doublet_frame *f, uint8_t *bytes) {
  uint8_t light = 0;
#ifndef DOUBLET_NO_CHIPS
  uint8_t other[4], count, i;
#endif
  while (f->dark == 0) {
    const struct doublet *d = f->signals;
    if (f->leds == 0) {
      if (!doublet_go_on(f)) return 0;
      continue;
    }
    f->leds--;
    light = d->test;
    if (light) return doublet_shine(f, light, bytes);
#ifdef DOUBLET_NO_CHIPS
    return doublet_lamp(f, bytes);
#else
    /* Of a chip each channel has a light, of whose bytes it sends its own. */
    count = doublet_lamp(f, bytes);
    if (!f->chips) return count;
    /*@ loop unroll 4; */
    for (i = 1; i < 4 && i < count; i++) {
      other[i] = 0;
      (void)doublet_lamp(f, other);
      bytes[i] = other[i];
    }
    return count;
#endif
  }
  f->dark--;
  return doublet_shine(f, 0, bytes);
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
  uint16_t quiet = f->quiet;
  uint8_t i;
  for (i = 0; i < 16; i++) {
    if (f->used[i >> 3] >> (i & 7) & 1) {
      const uint8_t *p = doublet_rhythm(f->signals, i);
      const uint16_t period = doublet_u16(p), into = doublet_into(f->now, period);
      uint16_t edge = doublet_u16(p + 2);
      if (into >= edge) edge = period;
      if (quiet > edge - into) quiet = (uint16_t)(edge - into);
    }
  }
  return quiet;
}

#endif

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
