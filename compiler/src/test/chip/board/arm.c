/*
 * Cortex-M0 (the micro:bit of qemu) and Cortex-M3 (its MPS2 with AN385), with semihosting. Each instruction is
 * one step of the virtual clock, as -icount says, and SysTick reads that clock.
 */
#include "board.h"

extern uint32_t board_data_from, board_data, board_data_end, board_bss_end, board_stack_top;

int main(void);

static void semihosting(uint32_t operation, uintptr_t argument) {
  register uint32_t r0 __asm__("r0") = operation;
  register uintptr_t r1 __asm__("r1") = argument;
  __asm__ volatile("bkpt 0xAB" : "+r"(r0) : "r"(r1) : "memory");
}

void board_put(char c) { semihosting(0x03, (uintptr_t)&c); }

void board_stop(void) {
  semihosting(0x18, 0x20026); /* the application ended */
  for (;;) {
  }
}

#define SYSTICK ((volatile uint32_t *)0xE000E010)

void board_reset(void);
void board_reset(void) {
  uint32_t *from = &board_data_from, *to = &board_data;
  while (to < &board_data_end) *to++ = *from++;
  while (to < &board_bss_end) *to++ = 0;
  SYSTICK[1] = 0xFFFFFF;
  SYSTICK[2] = 0;
  SYSTICK[0] = 5;
  main();
  board_stop();
}

static void fault(void) {
  const char *c;
  for (c = "fault\n"; *c; c++) board_put(*c);
  board_stop();
}

typedef void handler(void);
__attribute__((section(".vectors"), used)) static handler *const vectors[16] = {
    (handler *)&board_stack_top, board_reset, fault, fault, fault, fault, fault};
