/*
 * What a board must do for signals.c. Write these four for yours: most boards' own libraries have all
 * but the first in a few lines. On an 8-bit board, timestamp the edges of DCC in hardware: sending LED data
 * holds interrupts off for longer than half a DCC bit.
 */
#ifndef BOARD_H
#define BOARD_H

#include <stdint.h>

/* Sets up clocks, pins, and whatever receives DCC. */
void board_begin(void);

/* Milliseconds since the start; may wrap. */
uint32_t board_millis(void);

/* The next whole DCC packet, with its error byte: its length, or 0 when there is none. */
uint8_t board_packet(uint8_t packet[6]);

/* Sends bytes down the cable of a chain, then lets the line rest. */
void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count);

#endif
