/*
 * Every call of the reader, with any arguments, on tables of the LENGTHS that may be anything and may become anything
 * else at any time, with MEMORY bytes of state. For Frama-C's Eva, which must find no access outside a buffer, no
 * undefined arithmetic and no uninitialised read; see prove.
 *
 * A table ends where its buffer ends, so that a step behind it is a step out of the buffer; the reader only adds
 * whole numbers to its first byte, so that no step leads before it. What opening leaves is asserted, and all other
 * calls start from all of that at once: a struct that holds nothing, or the table with any counts that fit the state.
 */
#include <__fc_builtin.h>

#include "lengths.h"

#include "doublet_reader.h"

#define ANY(type) ((type)Frama_C_unsigned_long_interval(0, (type)-1))
#define ANY64 (ANY(uint32_t) | (uint64_t)ANY(uint32_t) << 32)
#define MOST_UNITS (MEMORY / DOUBLET_UNIT)
#define MOST 1300

static uint8_t most[MOST + 1];
static uint8_t memory[MEMORY + 1];
static char topic[TEXT + 1], payload[TEXT + 1];
static uint8_t packet[PACKET + 1], saved[SAVED + 1], led[4], line[LINE + 1];

#define ANYTHING(bytes) Frama_C_make_unknown((char *)(bytes), sizeof(bytes))

static void open(const uint8_t *table, unsigned length) {
  struct doublet d;
  doublet_open(&d, NULL, length, memory + 1, MEMORY);
  /*@ assert d.units == 0 && d.buses == 0 && d.chains == 0; */
  doublet_open(&d, table, length, memory + 1, MEMORY);
  if (length < DOUBLET_HEADER + DOUBLET_SUM) {
    /*@ assert d.units == 0 && d.buses == 0 && d.chains == 0; */
  } else {
    /*@ assert d.table == table && d.state == &memory[1] && d.unit == d.state && d.limit == length - 4; */
    /*@ assert d.units <= MOST_UNITS; */
  }
}

static void call(struct doublet *d) {
#if CALL == 1
  doublet_accessory(d, ANY(uint8_t), ANY(uint16_t), ANY(uint8_t), ANY(uint32_t));
  doublet_extended(d, ANY(uint8_t), ANY(uint16_t), ANY(uint8_t), ANY(uint32_t));
  doublet_packet(d, ANY(uint8_t), packet + 1, PACKET, ANY(uint32_t));
#elif CALL == 2
  doublet_topic(d, ANY(uint8_t), topic + 1, TEXT, payload + 1, TEXT, ANY(uint32_t));
#elif CALL == 3
  doublet_event(d, ANY(uint8_t), ANY64, ANY(uint32_t));
#elif CALL == 4
  doublet_aspect(d, ANY(uint16_t), ANY(uint32_t));
  doublet_set(d, ANY(uint16_t), ANY(uint8_t), ANY(uint32_t));
  doublet_set_approach(d, ANY(uint16_t), ANY(uint8_t), ANY(uint32_t));
#ifdef DOUBLET_SERVOS
  struct doublet_servo at;
  at.pulse = ANY(uint16_t);
  at.time = ANY(uint8_t);
  doublet_channel(d, ANY(uint8_t));
  doublet_pulse(d, ANY(uint8_t), &at, ANY(uint32_t));
#endif
#elif CALL == 5
  doublet_restore(d, saved + 1, SAVED);
  doublet_save(d, saved + 1, SAVED);
  doublet_restore(d, saved + 1, SAVED);
#elif CALL == 6
  struct doublet_frame f;
  doublet_begin(&f, d, ANY(uint8_t), ANY(uint32_t));
  while (doublet_next(&f, led) > 0) {
    doublet_set_night(d, ANY(uint8_t));
    doublet_set_test(d, ANY(uint8_t));
  }
  doublet_quiet(&f);
#elif CALL == 7
  uint16_t lowest, highest;
#ifndef DOUBLET_NO_FRAMES
  doublet_leds(d, ANY(uint8_t), ANY(uint32_t), line + 1, LINE);
#endif
  doublet_units(d);
  doublet_checksum(d);
  doublet_range(d, ANY(uint8_t), &lowest, &highest);
#endif
}

static void with(unsigned length) {
  const uint8_t *table = most + (MOST + 1 - length);
#if CALL == 0
  open(table, length);
#else
  struct doublet d;
  d.state = memory + 1;
  d.unit = d.state + DOUBLET_UNIT * Frama_C_unsigned_int_interval(0, MOST_UNITS - 1);
  d.kind = NULL;
  d.now = ANY(uint16_t);
  d.value = ANY(uint16_t);
  d.taken = ANY(uint16_t);
  d.run = ANY(uint8_t);
  d.night = ANY(uint8_t);
  d.test = ANY(uint8_t);
  d.table = NULL;
  d.limit = (uint16_t)(length - DOUBLET_SUM);
  d.units = d.kinds = d.cycles = 0;
  d.colours = 0;
  d.buses = d.chains = 0;
  call(&d);
  if (length >= DOUBLET_HEADER + DOUBLET_SUM) {
    d.table = table;
    d.kinds = ANY(uint16_t);
    d.cycles = ANY(uint16_t);
    d.colours = ANY(uint8_t);
    d.units = (uint16_t)Frama_C_unsigned_int_interval(0, MOST_UNITS);
    d.buses = ANY(uint8_t);
    d.chains = ANY(uint8_t);
    call(&d);
  }
#endif
}

int main(void) {
  static const unsigned lengths[] = {LENGTHS};
  unsigned i;
  ANYTHING(memory);
  ANYTHING(topic);
  ANYTHING(payload);
  ANYTHING(packet);
  ANYTHING(saved);
  ANYTHING(most);
  /*@ loop unroll 1400; */
  for (i = 0; i < sizeof lengths / sizeof *lengths; i++) with(lengths[i]);
  return 0;
}
