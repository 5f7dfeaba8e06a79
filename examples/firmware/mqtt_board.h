/*
 * What a board with a network must do for mqtt_signals.c. One file a board: host.c is one, for a computer, and
 * stm32f405.c, for a chip; wifi_board.c is one to begin from. The board's file has main, or what its kit wants in its
 * place, and calls mqtt_signals_begin once and mqtt_signals_go_on for ever.
 */
#ifndef MQTT_BOARD_H
#define MQTT_BOARD_H

#include <stdint.h>

/* Milliseconds since the start; may wrap. */
uint32_t board_millis(void);

/* Sends bytes down the cable of a chain, first letting the line rest for as long as its LEDs need to take over what
 * came before. */
void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count);

/* Opens a connection to the broker: 1 when it is there. Lamps stand still while it waits. After 0 it is called again in
 * a second, and may go on with the same one. */
uint8_t board_connect(void);

/* Bytes that have arrived, at most so many and without waiting for any: 0 when there are none, -1 when the connection
 * is gone. */
int32_t board_receive(uint8_t *bytes, uint16_t room);

/* Hands bytes to the connection: 1 when it took them all, 0 when it is gone. */
uint8_t board_transmit(const uint8_t *bytes, uint16_t count);

/* Drops the connection. */
void board_close(void);

/* Two slots, 0 and 1, in memory that outlasts power, each with room for TABLE_ROOM + 12 bytes. Those that were erased
 * are written once. Memory must be such that a loss of power during either touches no other slot. */
void board_slot_read(uint8_t slot, uint32_t at, uint8_t *bytes, uint16_t count);
void board_slot_erase(uint8_t slot);
void board_slot_write(uint8_t slot, uint32_t at, const uint8_t *bytes, uint16_t count);

#endif
