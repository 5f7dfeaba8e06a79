/*
 * What a board must do for the firmware. One file a board: atmega328p.c is one. terminus.c, beside its layout, needs
 * the first four alone.
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

/* Sends bytes down the cable of a chain, first letting the line rest for as long as its LEDs need to take over what
 * came before. */
void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count);

/* The same for a chain and the one after it, as many bytes down each, at once where the board can. Zeros behind the
 * last LED of the shorter do no harm. */
void board_send_two(uint8_t chain, const uint8_t *bytes, const uint8_t *beside, uint16_t count);

/* Gives each servo a pulse of so many microseconds, 500 to 2,500, or none for 0: all begin at once. Returns when the last
 * is over. Only firmware with DOUBLET_SERVOS wants it. */
#define BOARD_SERVOS 5u
void board_pulses(const uint16_t micros[BOARD_SERVOS]);

/* 1 while the button for the lamp test is held. */
uint8_t board_pressed(void);

/* The next character typed on the serial line, or 0. Characters may have to wait for 5 ms while LEDs are sent. */
char board_typed(void);

/* Prints a character; 0 when the line is busy, and it must be tried again. */
uint8_t board_print(char c);

/* Bytes of the memory that outlasts power, one of them, and the writing of one: 0 when it is busy, and it must be tried
 * again. Memory as it was made is 0xFF. */
uint16_t board_room(void);
uint8_t board_kept(uint16_t at);
uint8_t board_keep(uint16_t at, uint8_t byte);

#endif
