/*
 * To begin from: a board of mqtt_signals.c with a radio, whose kit has sockets as POSIX has them (most have: practice), so
 * that sockets.c is its network. What begins with kit_ is to be written in your kit's words; nothing else is.
 */
#include "kit.h"
#include "led_bits.h"
#include "mqtt_signals.h"
#include "mqtt_table.h"
#include "sockets.h"

#define SECTOR 4096u /* what your flash erases at once */
#define SLOT_BYTES ((TABLE_ROOM + 12u + SECTOR - 1) / SECTOR * SECTOR)

uint32_t board_millis(void) { return kit_millis(); }

/* kit_spi puts sixteen bits, the highest first, on the SPI of a chain at LED_BITS_HZ. */
void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) { led_send(kit_spi, chain, bytes, count); }

/* An area of flash that is the program's own, from 0 on. */
void board_slot_read(uint8_t slot, uint32_t at, uint8_t *bytes, uint16_t count) {
  kit_flash_read(slot * SLOT_BYTES + at, bytes, count);
}

void board_slot_erase(uint8_t slot) { kit_flash_erase(slot * SLOT_BYTES, SLOT_BYTES); }

void board_slot_write(uint8_t slot, uint32_t at, const uint8_t *bytes, uint16_t count) {
  kit_flash_write(slot * SLOT_BYTES + at, bytes, count);
}

int main(void) {
  static const struct mqtt_names names = {KIT_NAME, KIT_USER, KIT_PASSWORD};
  kit_begin(); /* pins, SPI, and the radio, which joins its network */
  sockets_begin(KIT_BROKER, KIT_PORT);
  if (mqtt_signals_begin(&names) == MQTT_BEGUN)
    for (;;) {
      mqtt_signals_go_on();
      kit_rest(); /* a millisecond or so for the radio */
    }
  return 0;
}
