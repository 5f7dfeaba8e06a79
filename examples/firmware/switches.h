/*
 * Two-way switches of any bus, handed to the table by number and position: those of a panel, of a bus for points, of
 * whatever a club has built. In the layout they are addresses of a DCC bus, whether there is any track or not, and their
 * signals are commanded binary-coded or one-per-output.
 */
#ifndef SWITCHES_H
#define SWITCHES_H

#include "doublet_reader.h"

/* Positions, as OpenLCB's Event Identifiers Technical Note names the outputs of a pair. */
enum switch_position { SWITCH_REVERSE, SWITCH_NORMAL };

#define SWITCH_NONE 0xFFFFu

/* The binary address of a number, 1 to 2048, counted as the layout's bus counts; SWITCH_NONE for others, and where the
 * bus is not one of DCC. */
static inline uint16_t switch_address(const struct doublet *d, uint8_t bus, uint16_t number) {
  const uint8_t *p = doublet_bus(d, bus, 0);
  if (p == d->table || number == 0 || number > 2048) return SWITCH_NONE;
  return (uint16_t)(number + (DOUBLET_BYTE(p) & 0x80 ? 2047u : 3u)) & 2047u;
}

/* A switch of a number is at a position now: how many signals listen to it. Saying so again does no harm. */
static inline uint16_t switch_thrown(struct doublet *d, uint8_t bus, uint16_t number, enum switch_position position,
                                     uint32_t now) {
  const uint16_t address = switch_address(d, bus, number);
  return address == SWITCH_NONE ? 0 : doublet_accessory(d, bus, address, (uint8_t)position, now);
}

#endif
