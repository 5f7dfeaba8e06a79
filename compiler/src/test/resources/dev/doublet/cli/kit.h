/* What a kit brings for wifi_board.c, on a computer; kit.c has it. */
#ifndef KIT_H
#define KIT_H

#include <stddef.h>
#include <stdint.h>

#define KIT_NAME "bank"
#define KIT_USER NULL
#define KIT_PASSWORD NULL
#define KIT_BROKER "localhost"
#define KIT_PORT kit_port

extern const char *kit_port;

void kit_begin(void);
uint32_t kit_millis(void);
void kit_rest(void);
void kit_spi(uint8_t chain, uint16_t sixteen);
void kit_flash_read(uint32_t at, uint8_t *bytes, uint32_t count);
void kit_flash_erase(uint32_t at, uint32_t count);
void kit_flash_write(uint32_t at, const uint8_t *bytes, uint32_t count);

#endif
