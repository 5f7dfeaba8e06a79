/*
 * The reader of Doublet tables, format versions 1 and 2 (DEVELOPERS.md, "The table, byte by byte").
 *
 * C99 and C++. No heap, no floats, no recursion, nothing static but constants. Every read of the
 * table is checked against its length, so any bytes are safe. It is one file with its reason: a
 * sketch includes it and needs nothing else.
 *
 *   static uint8_t state[STATE_BYTES];
 *   struct doublet signals;
 *   if (doublet_open(&signals, table, sizeof table, state, sizeof state) == DOUBLET_OK) ...
 *   doublet_packet(&signals, bus, packet, packet_length);       as commands arrive
 *   doublet_leds(&signals, chain, milliseconds, bytes, size);   before each refresh of a chain
 *
 * The table is read through DOUBLET_BYTE(pointer): from program memory on AVR, from ordinary memory
 * elsewhere. Define it before including this file to read from somewhere else. Commands always come
 * from ordinary memory.
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
#else
#define DOUBLET_BYTE(p) (*(p))
#endif
#endif

/*
 * Define DOUBLET_FADES to let filament lamps glow and vanes swing; without it all lamps switch at
 * once. Define DOUBLET_SWING, at most 512, for vanes that take other milliseconds: no time is
 * published. A unit then has more bytes of state.
 */
#ifdef DOUBLET_FADES
#define DOUBLET_UNIT 6u
#ifndef DOUBLET_SWING
#define DOUBLET_SWING 300u
#endif
#if DOUBLET_SWING < 1 || DOUBLET_SWING > 512
#error "DOUBLET_SWING is 1 to 512 milliseconds"
#endif
#else
#define DOUBLET_UNIT 2u
#endif

/* Functions stay functions where the compiler lets us say so: it saves half of the bytes. */
#ifdef __GNUC__
#define DOUBLET_FUNCTION static __attribute__((unused, noinline))
#else
#define DOUBLET_FUNCTION static inline
#endif

/* An open table. After a refusal it holds no unit, and every call does nothing. */
struct doublet {
  const uint8_t *table;
  uint8_t *state; /* each unit: the state; bits received (low half), bits known (high); for fades
                     what is shown, what was before, and since when */
  uint8_t night;  /* not 0: the palettes for night are shown */
};

/* Why a table is refused. */
enum doublet_reason {
  DOUBLET_OK,
  DOUBLET_TOO_SHORT,
  DOUBLET_NOT_A_TABLE,
  DOUBLET_OTHER_VERSION,
  DOUBLET_WRONG_LENGTH,
  DOUBLET_WRONG_CHECKSUM,
  DOUBLET_NOT_SOUND,
  DOUBLET_STATE_TOO_SMALL
};

/* ---- Inside: reading, and walking over the units ---- */

#define DOUBLET_HEADER 18u
#define DOUBLET_ADDRESSES 2048u
#define DOUBLET_BROADCAST 2047u
#define DOUBLET_LOW 0x7Fu /* the number in a byte whose top bit says more */
#define DOUBLET_TOP 0x80u
#define DOUBLET_NOTHING 256u /* no value, or no state */

enum doublet_section { DOUBLET_BUSES, DOUBLET_CHAINS, DOUBLET_RHYTHMS, DOUBLET_LIGHTS, DOUBLET_KINDS };

/* A walk over the units. Places in the table are unsigned: 16 bits are enough for them. */
struct doublet_walk {
  const uint8_t *table;
  uint8_t *state;     /* the unit's two bytes */
  unsigned length;
  unsigned kind;      /* where its kind is */
  unsigned mode;      /* the kind's mode and flags */
  unsigned look;      /* where its look is */
  unsigned leds;
  unsigned states;
  unsigned led;       /* its first LED, over all chains */
  unsigned key;       /* where its key is */
  unsigned address;   /* DCC: the first of consecutive addresses */
  unsigned addresses;
  unsigned place;     /* the unit's place in its entry */
  unsigned left;      /* units to come */
  unsigned run;       /* units of this entry to come */
  unsigned sections[5]; /* where buses, chains, rhythms, lights and kinds are */
  unsigned next;      /* where the next entry is */
  unsigned kind_at;   /* where its kind is named */
  unsigned kind_step; /* 1 when the entry names each unit's kind */
  unsigned key_step;  /* bytes from one unit's key to the next */
  uint8_t *ahead;     /* the two bytes of the next unit */
};

DOUBLET_FUNCTION unsigned doublet_u8(const struct doublet_walk *w, unsigned at) {
  return at < w->length ? DOUBLET_BYTE(w->table + at) : 0u;
}

DOUBLET_FUNCTION unsigned doublet_u16(const struct doublet_walk *w, unsigned at) {
  return doublet_u8(w, at) | doublet_u8(w, at + 1) << 8;
}

DOUBLET_FUNCTION uint32_t doublet_u32(const struct doublet_walk *w, unsigned at) {
  return doublet_u16(w, at) | (uint32_t)doublet_u16(w, at + 2) << 16;
}

DOUBLET_FUNCTION uint64_t doublet_u64(const struct doublet_walk *w, unsigned at) {
  return doublet_u32(w, at) | (uint64_t)doublet_u32(w, at + 4) << 32;
}

/* Stands before the first unit; reads nothing but the header. */
DOUBLET_FUNCTION void doublet_start(struct doublet_walk *w, const struct doublet *d) {
  uint32_t sizes = 0x82453u; /* bytes of a bus, a chain, a rhythm, a light and a kind */
  unsigned i;
  w->table = d->table;
  w->ahead = d->state;
  w->length = w->table ? DOUBLET_HEADER : 0;
  w->left = doublet_u16(w, 10);
  w->run = 0;
  w->kind = 0;
  w->next = DOUBLET_HEADER;
  for (i = 0; i < 5; i++, sizes >>= 4) {
    w->sections[i] = w->next;
    w->next += (unsigned)(sizes & 15) * doublet_u8(w, 12 + i);
  }
  w->length = doublet_u16(w, 6);
}

/* Goes on to the next unit; 0 when there is none, or the entries are not sound. */
DOUBLET_FUNCTION unsigned doublet_step(struct doublet_walk *w) {
  const unsigned fresh = w->run == 0;
  unsigned kind;
  if (w->left == 0) return 0;
  if (fresh) {
    kind = doublet_u8(w, w->next);
    w->run = kind & 0x7F;
    if (w->run == 0) return 0;
    w->kind_step = kind >> 7;
    w->led = doublet_u16(w, w->next + 1);
    w->kind_at = w->next + 3;
    w->key = w->kind_at + (w->kind_step ? w->run : 1);
    w->place = 0;
  } else {
    w->led += w->leds;
    w->address += w->addresses;
    w->kind_at += w->kind_step;
    w->key += w->key_step;
    w->place++;
  }
  kind = doublet_u8(w, w->kind_at);
  if (kind >= doublet_u8(w, 16)) return 0;
  kind = w->sections[DOUBLET_KINDS] + 8 * kind;
  if (kind != w->kind) {
    w->kind = kind;
    w->look = doublet_u16(w, kind);
    w->leds = doublet_u8(w, w->look);
    w->states = doublet_u8(w, w->look + 1) & DOUBLET_LOW;
    w->mode = doublet_u8(w, kind + 2);
    w->addresses = doublet_u8(w, kind + 4);
  }
  if (fresh) {
    w->address = doublet_u16(w, w->key);
    w->key_step = w->mode & 0x80 ? 2 : (w->mode & 7) == 3 ? 4 : 0;
    w->next = w->key + w->key_step * w->run;
    if (w->key_step == 0) w->next += (w->mode & 7) == 4 ? 10 : 2;
  }
  w->run--;
  w->left--;
  w->state = w->ahead;
  w->ahead += DOUBLET_UNIT;
  return 1;
}

/* Goes on to the next unit on a bus. */
DOUBLET_FUNCTION unsigned doublet_step_on(struct doublet_walk *w, unsigned bus) {
  while (doublet_step(w)) {
    if ((doublet_u8(w, w->kind + 3) & DOUBLET_LOW) == bus) return 1;
  }
  return 0;
}

/* Goes to a unit; 0 when there is none. */
DOUBLET_FUNCTION unsigned doublet_find(struct doublet_walk *w, const struct doublet *d,
                                       unsigned unit) {
  doublet_start(w, d);
  while (doublet_step(w)) {
    if (unit-- == 0) return 1;
  }
  return 0;
}

/* Shows a state; nothing is the rest state, unless the present one is to stay. */
DOUBLET_FUNCTION void doublet_show(const struct doublet_walk *w, unsigned state) {
  if (state >= DOUBLET_NOTHING) {
    if (w->mode & 0x40) return;
    state = doublet_u8(w, w->kind + 5);
  }
  w->state[0] = (uint8_t)((w->state[0] & DOUBLET_TOP) | state);
}

/* The state that a value calls up, or nothing. */
DOUBLET_FUNCTION unsigned doublet_called(const struct doublet_walk *w, unsigned value) {
  const unsigned answers = doublet_u16(w, w->kind + 6);
  unsigned i, at = w->look + 2, count = w->states;
  if (answers == 1) return value < count ? value : DOUBLET_NOTHING;
  if (answers) {
    count = doublet_u8(w, answers);
    at = answers + 1;
  }
  for (i = 0; i < count; i++, at++) {
    if (doublet_u8(w, at) == value) return answers ? doublet_u8(w, at + 1) : i;
    if (answers) at++;
  }
  return DOUBLET_NOTHING;
}

/* CRC-32C, one byte on; begin with all ones, and complement the end. Tables would be faster, and
 * take more bytes than any other part of this reader. */
DOUBLET_FUNCTION uint32_t doublet_sum(uint32_t sum, unsigned byte) {
  unsigned bit;
  sum ^= byte;
  for (bit = 0; bit < 8; bit++) sum = sum >> 1 ^ (sum & 1 ? 0x82F63B78u : 0);
  return sum;
}

DOUBLET_FUNCTION uint32_t doublet_sum_of(const char *bytes, size_t length) {
  uint32_t sum = 0xFFFFFFFFu;
  for (; length > 0; length--) sum = doublet_sum(sum, (uint8_t)*bytes++);
  return ~sum;
}

/* An accessory command: value is the output of a basic one, the aspect's number of an extended. */
DOUBLET_FUNCTION uint16_t doublet_dcc(const struct doublet *d, unsigned bus, unsigned extended,
                                      unsigned address, unsigned value) {
  struct doublet_walk w;
  unsigned taken = 0;
  doublet_start(&w, d);
  while (doublet_step_on(&w, bus)) {
    const unsigned mode = w.mode & 7;
    unsigned i, meant = 0;
    if (mode > 2 || (mode == 0) != extended) continue;
    for (i = 0; i < w.addresses; i++) {
      unsigned called = value;
      if ((w.mode & 0x80 ? doublet_u16(&w, doublet_u16(&w, w.key) + 2 * i)
                         : (w.address + i) % DOUBLET_ADDRESSES) != address &&
          !(extended && address == DOUBLET_BROADCAST))
        continue;
      meant = 1;
      if (extended) {
        if (value >> (doublet_u8(&w, DOUBLET_HEADER + 1 + 3 * bus) & 15)) called = DOUBLET_NOTHING;
      } else if (mode == 2) {
        called += 2 * i;
      } else {
        const unsigned bit = 1u << ((w.mode & 0x10 ? i : w.addresses - 1 - i) & 3);
        called = (w.state[1] & ~bit) | bit << 4;
        if (value == (w.mode >> 3 & 1)) called |= bit;
        w.state[1] = (uint8_t)called;
        if (called >> 4 != (1u << (w.addresses & 7)) - 1) continue;
        called &= 15;
      }
      doublet_show(&w, doublet_called(&w, called));
    }
    taken += meant;
  }
  return (uint16_t)taken;
}

/* Why a table is refused, once it is known to have a header and a checksum. */
DOUBLET_FUNCTION enum doublet_reason doublet_refusal(const struct doublet *d, size_t size,
                                                     size_t state_size) {
  struct doublet_walk w;
  uint32_t sum = 0xFFFFFFFFu;
  unsigned i;
  doublet_start(&w, d);
  w.length = (unsigned)size;
  if (doublet_u32(&w, 0) != 0x544C4244u) return DOUBLET_NOT_A_TABLE;
  if (doublet_u8(&w, 4) - 1 > 1) return DOUBLET_OTHER_VERSION;
  if (doublet_u16(&w, 6) != size) return DOUBLET_WRONG_LENGTH;
  for (i = 0; i < w.length - 4; i++) sum = doublet_sum(sum, doublet_u8(&w, i));
  if (~sum != doublet_u32(&w, i)) return DOUBLET_WRONG_CHECKSUM;
  if (state_size / DOUBLET_UNIT < w.left) return DOUBLET_STATE_TOO_SMALL;
  while (doublet_step(&w)) {
    w.state[1] = 0;
    w.state[0] = (uint8_t)doublet_u8(&w, w.kind + 5);
#ifdef DOUBLET_FADES
    w.state[2] = w.state[3] = w.state[0];
    w.state[4] = w.state[5] = 0;
#endif
  }
  return w.left || w.run ? DOUBLET_NOT_SOUND : DOUBLET_OK;
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
#define DOUBLET_SOON 128u  /* a fade younger than this is led on to another state, not begun anew */

/* A lamp's light so long after it was switched on, or off: 0 to 255. */
DOUBLET_FUNCTION unsigned doublet_curve(unsigned on, uint32_t milliseconds) {
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
  if (milliseconds >= DOUBLET_RISEN) return DOUBLET_SAMPLE(samples + (DOUBLET_RISEN >> shift));
  part = (unsigned)milliseconds & (step - 1);
  samples += milliseconds >> shift;
  return (DOUBLET_SAMPLE(samples) * (step - part) + DOUBLET_SAMPLE(samples + 1) * part + step / 2) >>
         shift;
}

/* A level, or a drive, at a level. */
DOUBLET_FUNCTION unsigned doublet_scaled(unsigned full, unsigned level) {
  return (full * level + 127u) / 255u;
}

/* The light of an LED in a state of the unit; 0 is dark. */
DOUBLET_FUNCTION unsigned doublet_light(const struct doublet_walk *w, unsigned state, unsigned led) {
  const unsigned width = doublet_u8(w, 5);
  const uint32_t bit = ((uint32_t)state * w->leds + led) * width;
  if (state & DOUBLET_TOP) return 0;
  return doublet_u16(w, w->look + 2 + w->states + (unsigned)(bit >> 3)) >> (bit & 7) &
         ((1u << (width & 15)) - 1);
}

DOUBLET_FUNCTION unsigned doublet_colour(const struct doublet_walk *w, unsigned light) {
  return light ? doublet_u8(w, w->sections[DOUBLET_LIGHTS] + 2 * light - 2) : 0;
}

/* How far its rhythm lets a light shine. */
DOUBLET_FUNCTION unsigned doublet_level(const struct doublet_walk *w, unsigned light,
                                        uint32_t milliseconds, unsigned filament) {
  unsigned rhythm, period, first, into, inverse, lit;
  if (light == 0) return 0;
  rhythm = doublet_u8(w, w->sections[DOUBLET_LIGHTS] + 2 * light - 1);
  if (rhythm == 0) return 255;
  inverse = rhythm > DOUBLET_LOW;
  rhythm = w->sections[DOUBLET_RHYTHMS] + 4 * (rhythm & DOUBLET_LOW) - 4;
  period = doublet_u16(w, rhythm);
  first = doublet_u16(w, rhythm + 2);
  if (period == 0) return 0;
  into = (unsigned)(milliseconds % period);
  lit = (into < first) != inverse;
  if (!filament) return lit ? 255 : 0;
  if (into >= first) into -= first;
  if (lit) return doublet_curve(1, into);
  if (inverse) first = first < period ? period - first : 0;
  return doublet_scaled(doublet_curve(0, into), doublet_curve(1, first));
}

DOUBLET_FUNCTION unsigned doublet_age(const struct doublet_walk *w, uint32_t milliseconds) {
  return (milliseconds - (w->state[4] | (uint32_t)w->state[5] << 8)) & 0xFFFF;
}

/* Sees whether the unit was called to another state, or has come to rest. */
DOUBLET_FUNCTION void doublet_turn(const struct doublet_walk *w, uint32_t milliseconds) {
  uint8_t *s = w->state;
  if (s[0] != s[2]) {
    if (s[2] == s[3] || doublet_age(w, milliseconds) >= DOUBLET_SOON) {
      s[3] = s[2];
      s[4] = (uint8_t)milliseconds;
      s[5] = (uint8_t)(milliseconds >> 8);
    }
    s[2] = s[0];
  }
  if (doublet_age(w, milliseconds) >= DOUBLET_RISEN) s[3] = s[2];
}

/* The bytes of one LED, which were 0. */
DOUBLET_FUNCTION void doublet_glow(const struct doublet_walk *w, uint32_t milliseconds, unsigned led,
                                   unsigned palette, unsigned channels, uint8_t *bytes) {
  const unsigned now = doublet_light(w, w->state[2], led), was = doublet_light(w, w->state[3], led);
  const unsigned age = doublet_age(w, milliseconds);
  unsigned colour = doublet_colour(w, now), before = doublet_colour(w, was);
  unsigned manner = 0, middle, level, rest = 0;
  if (doublet_u8(w, w->look + 1) & DOUBLET_TOP) {
    const uint32_t bits = (uint32_t)w->states * w->leds * doublet_u8(w, 5);
    manner = doublet_u8(w, w->look + 2 + w->states + (unsigned)((bits + 7) >> 3) + led);
  }
  middle = manner & DOUBLET_LOW;
  level = doublet_level(w, now, milliseconds, manner & DOUBLET_TOP);
  if (w->state[2] != w->state[3] && now != was) {
    if (middle && now && was) {
      const unsigned third = 3 * age / DOUBLET_SWING;
      if (third == 0)
        colour = before;
      else if (third == 1 && colour != before && colour != middle && before != middle)
        colour = middle;
    } else if (manner & DOUBLET_TOP) {
      rest = doublet_scaled(doublet_level(w, was, milliseconds, 1), doublet_curve(0, age));
      if (colour != before) level = doublet_scaled(level, doublet_curve(1, age));
    }
  }
  for (led = 0; led < channels; led++) {
    const unsigned fresh = level ? doublet_u8(w, palette + channels * colour + led) : 0;
    const unsigned old = rest ? doublet_u8(w, palette + channels * before + led) : 0;
    const unsigned risen = doublet_scaled(fresh, level), fallen = doublet_scaled(old, rest);
    bytes[led] = (uint8_t)(risen > fallen ? risen : fallen);
  }
}
#endif

/* ---- For sketches ---- */

/*
 * Opens a table of exactly so many bytes; state must have DOUBLET_UNIT bytes for each unit. Every unit is
 * then at its rest state.
 */
DOUBLET_FUNCTION enum doublet_reason doublet_open(struct doublet *d, const uint8_t *table,
                                                  size_t size, uint8_t *state,
                                                  size_t state_size) {
  enum doublet_reason reason;
  d->state = state;
  d->table = table;
  d->night = 0;
  reason = !table || size < DOUBLET_HEADER + 4 ? DOUBLET_TOO_SHORT
                                               : doublet_refusal(d, size, state_size);
  if (reason) d->table = NULL;
  return reason;
}

/* How many units the table has. */
DOUBLET_FUNCTION uint16_t doublet_units(const struct doublet *d) {
  struct doublet_walk w;
  doublet_start(&w, d);
  return (uint16_t)w.left;
}

/* The number of the aspect that a unit shows now; 0 when there is no such unit. */
DOUBLET_FUNCTION uint8_t doublet_aspect(const struct doublet *d, uint16_t unit) {
  struct doublet_walk w;
  if (!doublet_find(&w, d, unit)) return 0;
  return (uint8_t)doublet_u8(&w, w.look + 2 + (w.state[0] & DOUBLET_LOW));
}

/* By night, chains that have drives for the night send those. At opening it is day. */
DOUBLET_FUNCTION void doublet_set_night(struct doublet *d, uint8_t on) { d->night = on; }

/*
 * Says whether a train approaches a unit; does nothing to units that are not lit on approach. After
 * opening all are lit, so a sketch that never calls this never darkens a signal.
 */
DOUBLET_FUNCTION void doublet_set_approach(const struct doublet *d, uint16_t unit, uint8_t on) {
  struct doublet_walk w;
  if (doublet_find(&w, d, unit) && doublet_u8(&w, w.kind + 3) & DOUBLET_TOP)
    w.state[0] = (uint8_t)((w.state[0] & DOUBLET_LOW) | (on ? 0 : DOUBLET_TOP));
}

/*
 * A basic accessory command that switches an output on: binary address 0 to 2047; output 1 is
 * normal, 0 reverse. This and all calls for commands return how many units it was for.
 */
DOUBLET_FUNCTION uint16_t doublet_accessory(const struct doublet *d, uint8_t bus,
                                            uint16_t address, uint8_t output) {
  return doublet_dcc(d, bus, 0, address, output & 1);
}

/* An extended accessory command: binary address 0 to 2047, of which 2047 is every unit. */
DOUBLET_FUNCTION uint16_t doublet_extended(const struct doublet *d, uint8_t bus,
                                           uint16_t address, uint8_t value) {
  return doublet_dcc(d, bus, 1, address, value);
}

/* A whole DCC packet, first byte to error byte; does nothing unless it is an accessory's. */
DOUBLET_FUNCTION uint16_t doublet_packet(const struct doublet *d, uint8_t bus,
                                         const uint8_t *packet, size_t length) {
  const unsigned extended = length == 4;
  unsigned first, second, value;
  if (length != 3 && !extended) return 0;
  first = packet[0] ^ 0x80u;
  second = packet[1];
  value = packet[2];
  if (extended) {
    if (packet[3] != (first ^ 0x80 ^ second ^ value) || (second & 0x89) != 0x01) return 0;
  } else {
    if (value != (first ^ 0x80 ^ second) || (second & 0x88) != 0x88) return 0;
    value = second & 1;
  }
  if (first > 0x3F) return 0;
  return doublet_dcc(d, bus, extended, first << 2 | (~second & 0x70) << 4 | (second >> 1 & 3),
                     value);
}

/* An MQTT message; the payload is a name, or a number in decimal digits. */
DOUBLET_FUNCTION uint16_t doublet_topic(const struct doublet *d, uint8_t bus, const char *topic,
                                        size_t topic_length, const char *payload,
                                        size_t payload_length) {
  struct doublet_walk w;
  const uint32_t wanted = doublet_sum_of(topic, topic_length);
  const uint32_t name = doublet_sum_of(payload, payload_length);
  unsigned value = payload_length ? 0 : DOUBLET_NOTHING;
  unsigned taken = 0;
  while (payload_length-- > 0 && value < DOUBLET_NOTHING) {
    const unsigned digit = (uint8_t)*payload++ - (unsigned)'0';
    value = digit > 9 ? DOUBLET_NOTHING : 10 * value + digit;
  }
  doublet_start(&w, d);
  while (doublet_step_on(&w, bus)) {
    unsigned state;
    if ((w.mode & 0x87) != 3 || doublet_u32(&w, w.key) != wanted) continue;
    if (w.mode & 0x20) {
      unsigned at = doublet_u16(&w, w.kind + 6);
      for (state = 0; state < w.states && doublet_u32(&w, at) != name; state++) at += 4;
      if (state == w.states) state = DOUBLET_NOTHING;
    } else {
      state = doublet_called(&w, value);
    }
    doublet_show(&w, state);
    taken++;
  }
  return (uint16_t)taken;
}

/* An OpenLCB event, its first byte the most significant. */
DOUBLET_FUNCTION uint16_t doublet_event(const struct doublet *d, uint8_t bus, uint64_t event) {
  struct doublet_walk w;
  unsigned taken = 0;
  doublet_start(&w, d);
  while (doublet_step_on(&w, bus)) {
    unsigned state = DOUBLET_NOTHING;
    if ((w.mode & 7) != 4) continue;
    if (w.mode & 0x80) {
      unsigned at = doublet_u16(&w, w.key);
      for (state = 0; state < w.states && doublet_u64(&w, at) != event; state++) at += 8;
      if (state == w.states) state = DOUBLET_NOTHING;
    } else {
      const uint64_t value = event - doublet_u64(&w, w.key) -
                             (uint32_t)w.place * doublet_u16(&w, w.key + 8);
      if (value < DOUBLET_NOTHING) state = doublet_called(&w, (unsigned)value);
    }
    if (state < DOUBLET_NOTHING) {
      doublet_show(&w, state);
      taken++;
    }
  }
  return (uint16_t)taken;
}

/*
 * The bytes for a chain's LEDs at a time, in the order sent. Returns how many were written: 0 when
 * there is no such chain, or they do not fit. The time may start anywhere; a flash is cut once when
 * it wraps, after 49 days.
 */
DOUBLET_FUNCTION size_t doublet_leds(const struct doublet *d, uint8_t chain, uint32_t milliseconds,
                                     uint8_t *bytes, size_t size) {
  struct doublet_walk w;
  unsigned at, count, channels, first = 0;
#ifndef DOUBLET_FADES
  unsigned width;
#endif
  uint32_t total;
  doublet_start(&w, d);
  if (chain >= doublet_u8(&w, 13)) return 0;
  for (at = w.sections[DOUBLET_CHAINS]; chain-- > 0; at += 5) first += doublet_u16(&w, at);
  count = doublet_u16(&w, at);
  channels = doublet_u8(&w, at + 2);
  at = doublet_u16(&w, at + 3);
  if (channels > 4) {
    channels &= 7;
    if (d->night) at += channels * doublet_u8(&w, 17);
  }
  at -= channels;
  total = (uint32_t)count * channels;
  if (total > size) return 0;
  memset(bytes, 0, (size_t)total);
#ifdef DOUBLET_FADES
  while (doublet_step(&w)) {
    unsigned i, led = w.led - first;
    if (led >= count) continue;
    doublet_turn(&w, milliseconds);
    for (i = 0; i < w.leds && led < count; i++, led++)
      doublet_glow(&w, milliseconds, i, at, channels, bytes + (size_t)led * channels);
  }
#else
  width = doublet_u8(&w, 5);
  while (doublet_step(&w)) {
    unsigned led = w.led - first, left = w.state[0] & DOUBLET_TOP ? 0 : w.leds;
    uint32_t bit = (uint32_t)w.state[0] * left * width;
    for (; left-- > 0 && led < count; led++, bit += width) {
      const unsigned place = w.look + 2 + w.states + (unsigned)(bit >> 3);
      const unsigned light = doublet_u16(&w, place) >> (bit & 7) & ((1u << (width & 15)) - 1);
      const unsigned shown = w.sections[DOUBLET_LIGHTS] + 2 * light - 2;
      unsigned i, from = at + channels * doublet_u8(&w, shown);
      if (light == 0) continue;
      i = doublet_u8(&w, shown + 1);
      if (i) {
        const unsigned rhythm = w.sections[DOUBLET_RHYTHMS] + 4 * (i & DOUBLET_LOW) - 4;
        const unsigned period = doublet_u16(&w, rhythm);
        if (period == 0 ||
            (milliseconds % period < doublet_u16(&w, rhythm + 2)) == (i > DOUBLET_LOW))
          continue;
      }
      for (i = channels; i-- > 0;)
        bytes[(size_t)led * channels + i] = (uint8_t)doublet_u8(&w, from + i);
    }
  }
#endif
  return (size_t)total;
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
    case DOUBLET_NOT_SOUND: return "the checksum fits, but the signals do not add up";
    case DOUBLET_STATE_TOO_SMALL: return "too little memory for the state of the signals";
  }
  return "";
}
#endif

#endif
