/*
 * An STM32F405 with a crystal and 3.3 V as a board of mqtt_signals.c: a Cortex-M4, 1 MB of flash, 192 KB of memory. Its
 * network is a module of any sort that joins a serial line with the broker, bytes as they are.
 *
 *   PA7, PB15, PC12   LEDs of chains 0, 1 and 2, by SPI1, SPI2 and SPI3
 *   PA9, PA10         serial line to the module, out and in, 115,200 bit/s, 8 bits, no parity
 *   PA12              high while the module must wait (its CTS), as erasing flash stops the chip for half a second
 *
 * Registers, their bits and times are those of ST's RM0090 (from memory): names here are the chip's own. It was run in
 * an emulator, which has the SPI and the serial line, but no clocks to set, no flash that is written, and no pins.
 */
#include <stdint.h>
#include <string.h>

#include "led_bits.h"
#include "mqtt_board.h"
#include "mqtt_signals.h"
#include "mqtt_table.h"

#ifndef CRYSTAL_MHZ
#define CRYSTAL_MHZ 8u
#endif
#ifndef BOARD_NAME
#define BOARD_NAME "bank"
#endif

#define REGISTER(address) (*(volatile uint32_t *)(address))
#define BIT(n) (1u << (n))

#define RCC_CR REGISTER(0x40023800)
#define RCC_PLLCFGR REGISTER(0x40023804)
#define RCC_CFGR REGISTER(0x40023808)
#define RCC_AHB1ENR REGISTER(0x40023830)
#define RCC_APB1ENR REGISTER(0x40023840)
#define RCC_APB2ENR REGISTER(0x40023844)

#define FLASH_ACR REGISTER(0x40023C00)
#define FLASH_KEYR REGISTER(0x40023C04)
#define FLASH_SR REGISTER(0x40023C0C)
#define FLASH_CR REGISTER(0x40023C10)
#define FLASH_LOCK BIT(31)

#define GPIO_MODER(port) REGISTER(0x40020000 + 0x400 * (port))
#define GPIO_OSPEEDR(port) REGISTER(0x40020008 + 0x400 * (port))
#define GPIO_AFR(port, pin) REGISTER(0x40020020 + 0x400 * (port) + 4 * ((pin) / 8))

#define USART1_SR REGISTER(0x40011000)
#define USART1_DR REGISTER(0x40011004)
#define USART1_BRR REGISTER(0x40011008)
#define USART1_CR1 REGISTER(0x4001100C)
#define USART1_CR3 REGISTER(0x40011014)
#define USART1_IRQ 37

#define SPI_CR1(spi) REGISTER((spi) + 0x00)
#define SPI_SR(spi) REGISTER((spi) + 0x08)
#define SPI_DR(spi) (*(volatile uint16_t *)((spi) + 0x0Cu))

#define CLOCK_HZ 96000000u
#define BUS_HZ 24000000u /* of both buses of peripherals; SPI runs at half of it */
#define LINE_BAUD 115200u
#if BUS_HZ / 2 != LED_BITS_HZ
#error "LEDs want another rate"
#endif

static volatile uint32_t millis;

/* What the module brought, until it is fetched. */
static volatile uint8_t queue[1024];
static volatile uint16_t came, fetched;
static volatile uint8_t spilt; /* 1 once a byte was lost */

void tick(void);
void take(void);
void begin(void);
int main(void);

/* ---- Clock ---- */

void tick(void) { millis++; }

uint32_t board_millis(void) { return millis; }

/* Waits until bits are set. An emulator without clocks never sets them: then it goes on after a while, and a chip whose
 * crystal does not start shows wrong colours, if any. */
static void await(volatile const uint32_t *place, uint32_t bits) {
  uint32_t tries;
  for (tries = 0; tries < 1000000u && (*place & bits) != bits; tries++) continue;
}

/* 96 MHz from the crystal by way of 192, and 24 for the buses. Data of flash is not cached, as slots are written. */
static void set_clocks(void) {
  FLASH_ACR = BIT(9) | BIT(8) | 3; /* instructions are cached and fetched ahead; three wait states */
  RCC_CR |= BIT(16);
  await(&RCC_CR, BIT(17));
  RCC_PLLCFGR = 4u << 24 | BIT(22) | 192u << 6 | CRYSTAL_MHZ;
  RCC_CR |= BIT(24);
  await(&RCC_CR, BIT(25));
  RCC_CFGR = 5u << 13 | 5u << 10 | 2;
  await(&RCC_CFGR, 2u << 2);
  REGISTER(0xE000E014) = CLOCK_HZ / 1000 - 1; /* SysTick */
  REGISTER(0xE000E018) = 0;
  REGISTER(0xE000E010) = 7;
}

/* ---- Pins: 0 is port A ---- */

static void connect_pin(uint8_t port, uint8_t pin, uint32_t function) {
  GPIO_AFR(port, pin) |= function << 4 * (pin % 8);
  GPIO_OSPEEDR(port) |= 1u << 2 * pin; /* edges of some 10 ns */
  GPIO_MODER(port) |= 2u << 2 * pin;
}

/* ---- LEDs ---- */

static const uint32_t SPI[] = {0x40013000, 0x40003800, 0x40003C00};
#define CHAINS (sizeof SPI / sizeof *SPI)
typedef char chains_have_an_spi[CHAIN_ROOM <= CHAINS ? 1 : -1];

static void begin_leds(void) {
  uint8_t i;
  RCC_APB2ENR |= BIT(12);
  RCC_APB1ENR |= BIT(14) | BIT(15);
  connect_pin(0, 7, 5);
  connect_pin(1, 15, 5);
  connect_pin(2, 12, 6);
  /* Sixteen bits a frame, select held by software, half the bus's clock, master. */
  for (i = 0; i < CHAINS; i++) SPI_CR1(SPI[i]) = BIT(11) | BIT(9) | BIT(8) | BIT(6) | BIT(2);
}

static void put(uint8_t chain, uint16_t sixteen) {
  while (!(SPI_SR(SPI[chain]) & BIT(1))) continue;
  SPI_DR(SPI[chain]) = sixteen;
}

/* Interrupts may come at any time: sixteen bits are sent while the next wait. */
void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) {
  if (chain < CHAINS) led_send(put, chain, bytes, count);
}

/* ---- The network: a module on the serial line, which connects by itself ---- */

static void begin_line(void) {
  RCC_APB2ENR |= BIT(4);
  connect_pin(0, 9, 7);
  connect_pin(0, 10, 7);
  connect_pin(0, 12, 7);
  USART1_BRR = (BUS_HZ + LINE_BAUD / 2) / LINE_BAUD;
  USART1_CR3 = BIT(8);                           /* says when the module must wait */
  USART1_CR1 = BIT(13) | BIT(5) | BIT(3) | BIT(2); /* on; an interrupt for each byte; out and in */
  REGISTER(0xE000E100 + 4 * (USART1_IRQ / 32)) = BIT(USART1_IRQ % 32);
}

void take(void) {
  const uint32_t status = USART1_SR;
  const uint8_t byte = (uint8_t)USART1_DR;
  const uint16_t next = (uint16_t)((came + 1u) % sizeof queue);
  if (!(status & BIT(5))) return;
  if ((status & BIT(3)) || next == fetched) spilt = 1; /* one before it, or it, finds no room */
  if (next == fetched) return;
  queue[came] = byte;
  came = next;
}

/* What is left of an earlier connection is let go. */
uint8_t board_connect(void) {
  fetched = came;
  spilt = 0;
  return 1;
}

int32_t board_receive(uint8_t *bytes, uint16_t room) {
  uint16_t count = 0;
  if (spilt) return -1;
  while (count < room && fetched != came) {
    bytes[count++] = queue[fetched];
    fetched = (uint16_t)((fetched + 1u) % sizeof queue);
  }
  return count;
}

uint8_t board_transmit(const uint8_t *bytes, uint16_t count) {
  while (count-- > 0) {
    while (!(USART1_SR & BIT(7))) continue;
    USART1_DR = *bytes++;
  }
  return 1;
}

void board_close(void) {}

/* ---- Slots: sectors 2 and 3 of the flash, 16 KB each; the program lies before them ---- */

#define SLOT(slot) (0x08008000u + 0x4000u * (slot))
typedef char slot_has_room[TABLE_ROOM + 12u <= 0x4000u ? 1 : -1];

static void unlock(uint32_t how) {
  FLASH_KEYR = 0x45670123;
  FLASH_KEYR = 0xCDEF89AB;
  FLASH_SR = 0xF2; /* errors of before */
  FLASH_CR = how;
}

static void finish(void) {
  while (FLASH_SR & BIT(16)) continue;
}

void board_slot_read(uint8_t slot, uint32_t at, uint8_t *bytes, uint16_t count) {
  memcpy(bytes, (const void *)(SLOT(slot) + at), count);
}

void board_slot_erase(uint8_t slot) {
  const uint32_t how = BIT(1) | (2u + slot) << 3;
  unlock(how);
  FLASH_CR = how | BIT(16);
  finish();
  FLASH_CR = FLASH_LOCK;
}

/* Byte by byte, each 16 us: as long as its voltage is enough for the chip, none is left half written by a wrong width. */
void board_slot_write(uint8_t slot, uint32_t at, const uint8_t *bytes, uint16_t count) {
  volatile uint8_t *to = (volatile uint8_t *)(SLOT(slot) + at);
  unlock(BIT(0));
  while (count-- > 0) {
    *to++ = *bytes++;
    finish();
  }
  FLASH_CR = FLASH_LOCK;
}

/* ---- The start ---- */

int main(void) {
  static const struct mqtt_names names = {BOARD_NAME, NULL, NULL};
  set_clocks();
  RCC_AHB1ENR |= 7; /* ports A to C */
  begin_leds();
  begin_line();
  if (mqtt_signals_begin(&names) == MQTT_BEGUN)
    for (;;) mqtt_signals_go_on();
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
  for (;;) continue;
}

__attribute__((section(".vectors"), used)) static void (*const vectors[16 + USART1_IRQ + 1])(void) = {
    stack_top, begin, stop, stop, stop, stop, stop, 0, 0, 0, 0, stop, stop, 0, stop, tick, [16 + USART1_IRQ] = take};
