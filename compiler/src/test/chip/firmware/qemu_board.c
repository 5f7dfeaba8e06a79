/*
 * A Cortex-M3 in an emulator (QEMU's lm3s6965evb) as the board of mqtt_signals.c. Its first serial line is the connection
 * to the broker, as through a module that passes one on; the emulator joins the two. The second prints the bytes of LEDs
 * in hexadecimal whenever they change. Slots are kept in memory, as the emulator has no flash that is written.
 *
 * Addresses are those of Arm's PrimeCell UART (PL011) and of the core's SysTick, by their reference manuals (from memory).
 */
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "mqtt_board.h"
#include "mqtt_signals.h"
#include "mqtt_table.h"

#define REGISTER(address) (*(volatile uint32_t *)(address))
#define LINE 0x4000C000u
#define PRINT 0x4000D000u
#define DATA 0x00u
#define FLAGS 0x18u
#define NONE_CAME 0x10u
#define FULL 0x20u
#define FRAMES 0x2Cu
#define CONTROL 0x30u

#define SLOT_BYTES (TABLE_ROOM + 12u)

static volatile uint32_t millis;
static uint8_t slots[2][SLOT_BYTES];

void tick(void);
void begin(void);
int main(void);

void tick(void) { millis++; }

uint32_t board_millis(void) { return millis; }

static void put(uint32_t line, uint8_t byte) {
  while (REGISTER(line + FLAGS) & FULL) continue;
  REGISTER(line + DATA) = byte;
}

static void print(const char *text) {
  while (*text) put(PRINT, (uint8_t)*text++);
}

void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) {
  static uint8_t before[4][LED_ROOM / 4];
  static const char digits[] = "0123456789ABCDEF";
  char text[20];
  uint16_t i;
  if (chain > 3 || count > sizeof before[0] || memcmp(before[chain], bytes, count) == 0) return;
  memcpy(before[chain], bytes, count);
  snprintf(text, sizeof text, "chain %u ", (unsigned)chain);
  print(text);
  for (i = 0; i < count; i++) {
    put(PRINT, (uint8_t)digits[bytes[i] >> 4]);
    put(PRINT, (uint8_t)digits[bytes[i] & 15]);
  }
  print("\n");
}

/* The module on the line connects by itself. What it brought of an earlier connection is let go. */
uint8_t board_connect(void) {
  while (!(REGISTER(LINE + FLAGS) & NONE_CAME)) (void)REGISTER(LINE + DATA);
  return 1;
}

int32_t board_receive(uint8_t *bytes, uint16_t room) {
  uint16_t count = 0;
  while (count < room && !(REGISTER(LINE + FLAGS) & NONE_CAME)) bytes[count++] = (uint8_t)REGISTER(LINE + DATA);
  return count;
}

uint8_t board_transmit(const uint8_t *bytes, uint16_t count) {
  while (count-- > 0) put(LINE, *bytes++);
  return 1;
}

void board_close(void) {}

void board_slot_read(uint8_t slot, uint32_t at, uint8_t *bytes, uint16_t count) {
  memcpy(bytes, slots[slot] + at, count);
}

void board_slot_erase(uint8_t slot) { memset(slots[slot], 0xFF, SLOT_BYTES); }

void board_slot_write(uint8_t slot, uint32_t at, const uint8_t *bytes, uint16_t count) {
  memcpy(slots[slot] + at, bytes, count);
}

int main(void) {
  static const struct mqtt_names names = {"bank", NULL, NULL};
  board_slot_erase(0);
  board_slot_erase(1);
  REGISTER(0x400FE060) = 0x078E3AC0; /* 12.5 MHz, as after a reset: the emulator wants to be told */
  REGISTER(0x400FE104) = 3;          /* clocks for both lines */
  REGISTER(LINE + FRAMES) = REGISTER(PRINT + FRAMES) = 0x70; /* 8 bits, and queues */
  REGISTER(LINE + CONTROL) = REGISTER(PRINT + CONTROL) = 0x301;
  REGISTER(0xE000E014) = 12500 - 1; /* a tick each millisecond at 12.5 MHz */
  REGISTER(0xE000E018) = 0;
  REGISTER(0xE000E010) = 7;
  if (mqtt_signals_begin(&names) == MQTT_BEGUN)
    for (;;) mqtt_signals_go_on();
  print("the name is empty, or names are too long\n");
  return 0;
}

void stack_top(void); /* an address, and no function, but all others of its list are */
extern uint32_t data_from, data_begin, data_end, bss_begin, bss_end;

void begin(void) {
  uint32_t *to, *from = &data_from;
  for (to = &data_begin; to < &data_end;) *to++ = *from++;
  for (to = &bss_begin; to < &bss_end;) *to++ = 0;
  main();
  for (;;) continue;
}

static void stop(void) {
  print("fault\n");
  for (;;) continue;
}

__attribute__((section(".vectors"), used)) static void (*const vectors[16])(void) = {
    stack_top, begin, stop, stop, stop, stop, stop, 0, 0, 0, 0, stop, stop, 0, stop, tick};
