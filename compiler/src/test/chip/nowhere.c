/* Compiled on its own, so that no caller knows that these do nothing. */
#include "nowhere.h"

#ifndef __AVR__
#define PROGMEM
#endif
const uint8_t table[8] PROGMEM = {0};

#define UNUSED __attribute__((unused))
#define D UNUSED struct doublet *d
uint8_t nowhere_open(D, UNUSED const uint8_t *t, UNUSED size_t n, UNUSED uint8_t *s, UNUSED size_t m) { return 0; }
uint16_t nowhere_extended(D, UNUSED uint8_t b, UNUSED uint16_t a, UNUSED uint8_t v, UNUSED uint32_t t) { return 0; }
uint16_t nowhere_packet(D, UNUSED uint8_t b, UNUSED const uint8_t *p, UNUSED size_t n, UNUSED uint32_t t) { return 0; }
void nowhere_begin(UNUSED struct doublet_frame *f, D, UNUSED uint8_t c, UNUSED uint32_t t) {}
uint8_t nowhere_next(UNUSED struct doublet_frame *f, UNUSED uint8_t *b) { return 0; }
uint16_t nowhere_quiet(UNUSED const struct doublet_frame *f) { return 0; }
uint16_t nowhere_topic(D, UNUSED uint8_t b, UNUSED const char *t, UNUSED size_t n, UNUSED const char *p,
                       UNUSED size_t m, UNUSED uint32_t w) { return 0; }
uint16_t nowhere_event(D, UNUSED uint8_t b, UNUSED uint64_t e, UNUSED uint32_t t) { return 0; }
uint8_t nowhere_aspect(D, UNUSED uint16_t u, UNUSED uint32_t t) { return 0; }
uint8_t nowhere_set(D, UNUSED uint16_t u, UNUSED uint8_t n, UNUSED uint32_t t) { return 0; }
void nowhere_set_approach(D, UNUSED uint16_t u, UNUSED uint8_t o, UNUSED uint32_t t) {}
size_t nowhere_save(UNUSED const struct doublet *d, UNUSED uint8_t *b, UNUSED size_t n) { return 0; }
uint8_t nowhere_restore(D, UNUSED const uint8_t *b, UNUSED size_t n) { return 0; }
size_t nowhere_leds(D, UNUSED uint8_t c, UNUSED uint32_t t, UNUSED uint8_t *b, UNUSED size_t n) { return 0; }
uint32_t nowhere_checksum(UNUSED const struct doublet *d) { return 0; }
void nowhere_range(UNUSED const struct doublet *d, UNUSED uint8_t b, UNUSED uint16_t *l, UNUSED uint16_t *h) {}
