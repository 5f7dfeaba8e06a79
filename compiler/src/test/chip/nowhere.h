/* The calls of the reader, and functions of the same form that do nothing. */
#ifndef NOWHERE_H
#define NOWHERE_H

#include "doublet_reader.h"

struct doublet_frame;

extern const uint8_t table[];

uint8_t nowhere_open(struct doublet *, const uint8_t *, size_t, uint8_t *, size_t);
uint16_t nowhere_extended(struct doublet *, uint8_t, uint16_t, uint8_t, uint32_t);
uint16_t nowhere_packet(struct doublet *, uint8_t, const uint8_t *, size_t, uint32_t);
void nowhere_begin(struct doublet_frame *, struct doublet *, uint8_t, uint32_t);
uint8_t nowhere_next(struct doublet_frame *, uint8_t *);
uint16_t nowhere_quiet(const struct doublet_frame *);
uint16_t nowhere_topic(struct doublet *, uint8_t, const char *, size_t, const char *, size_t, uint32_t);
uint16_t nowhere_event(struct doublet *, uint8_t, uint64_t, uint32_t);
uint8_t nowhere_aspect(struct doublet *, uint16_t, uint32_t);
uint8_t nowhere_set(struct doublet *, uint16_t, uint8_t, uint32_t);
void nowhere_set_approach(struct doublet *, uint16_t, uint8_t, uint32_t);
size_t nowhere_save(const struct doublet *, uint8_t *, size_t);
uint8_t nowhere_restore(struct doublet *, const uint8_t *, size_t);
size_t nowhere_leds(struct doublet *, uint8_t, uint32_t, uint8_t *, size_t);
uint32_t nowhere_checksum(const struct doublet *);
void nowhere_range(const struct doublet *, uint8_t, uint16_t *, uint16_t *);

#ifdef NOWHERE
#define CALL(name) nowhere_##name
#else
#define CALL(name) doublet_##name
#endif

#endif
