/*
 * What a board with CAN must do for openlcb_signals.c. One file a board: can_linux.c is one, for a computer with a CAN
 * interface. OpenLCB's bus runs at 125 kbit/s, and wants a clock that is good to 0.9 % (CAN Physical Layer Standard):
 * a crystal, as a chip's own oscillator will not do.
 */
#ifndef CAN_BOARD_H
#define CAN_BOARD_H

#include "openlcb.h"

/* Milliseconds since the start; may wrap. */
uint32_t board_millis(void);

/* Sends bytes down the cable of a chain, first letting the line rest for as long as its LEDs need to take over what
 * came before. */
void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count);

/* The next extended data frame that arrived: 0 when there is none. Frames of other sorts are left out. They come in
 * 1.05 ms or more, so a board that sends LEDs for longer must put them aside meanwhile. */
uint8_t board_can_receive(struct openlcb_frame *frame);

/* Hands a frame to the controller: 1 when it took it, 0 when it has no room, 2 when it gave up sending one. */
uint8_t board_can_send(const struct openlcb_frame *frame);

#endif
