/*
 * The reader of Doublet tables, format versions 1 and 2 (DEVELOPERS.md, "The table, byte by byte").
 *
 * C99 and C++. No heap, no floats, no recursion, nothing static but constants. Every read of the
 * table is checked against its length, so any bytes are safe. It is one file with its reason: a
 * sketch includes it and needs nothing else.
 *
 *   static uint8_t state[2 * UNITS];
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

/* Functions stay functions where the compiler lets us say so: it saves half of the bytes. */
#ifdef __GNUC__
#define DOUBLET_FUNCTION static __attribute__((unused, noinline))
#else
#define DOUBLET_FUNCTION static inline
#endif

/* An open table. After a refusal it holds no unit, and every call does nothing. */
struct doublet {
  const uint8_t *table;
  uint8_t *state; /* two bytes a unit: the state; bits received (low half), bits known (high) */
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
    w->states = doublet_u8(w, w->look + 1);
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
  w->ahead += 2;
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
  if (state_size / 2 < w.left) return DOUBLET_STATE_TOO_SMALL;
  while (doublet_step(&w)) {
    w.state[1] = 0;
    w.state[0] = (uint8_t)doublet_u8(&w, w.kind + 5);
  }
  return w.left || w.run ? DOUBLET_NOT_SOUND : DOUBLET_OK;
}

/* ---- For sketches ---- */

/*
 * Opens a table of exactly so many bytes; state must have two bytes for each unit. Every unit is
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
  unsigned at, count, channels, width, first = 0;
  uint32_t total;
  doublet_start(&w, d);
  if (chain >= doublet_u8(&w, 13)) return 0;
  for (at = w.sections[DOUBLET_CHAINS]; chain-- > 0; at += 5) first += doublet_u16(&w, at);
  count = doublet_u16(&w, at);
  channels = doublet_u8(&w, at + 2);
  width = doublet_u8(&w, 5);
  at = doublet_u16(&w, at + 3);
  if (channels > 4) {
    channels &= 7;
    if (d->night) at += channels * doublet_u8(&w, 17);
  }
  at -= channels;
  total = (uint32_t)count * channels;
  if (total > size) return 0;
  memset(bytes, 0, total);
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
  return total;
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
