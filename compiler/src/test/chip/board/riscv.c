/* RV32 on the virt machine of qemu, with semihosting. With -icount shift=0 the cycle counter counts instructions. */
#include "board.h"

int main(void);

static void semihosting(uint32_t operation, uintptr_t argument) {
  register uint32_t a0 __asm__("a0") = operation;
  register uintptr_t a1 __asm__("a1") = argument;
  /* These three instructions, uncompressed and on one page, are the call. */
  __asm__ volatile(
      ".option push\n.option norvc\n.balign 16\n"
      "slli zero, zero, 0x1f\nebreak\nsrai zero, zero, 7\n.option pop"
      : "+r"(a0)
      : "r"(a1)
      : "memory");
}

void board_put(char c) { semihosting(0x03, (uintptr_t)&c); }

void board_stop(void) {
  semihosting(0x18, 0x20026);
  for (;;) {
  }
}

void board_begin_here(void);
void board_begin_here(void) {
  main();
  board_stop();
}

__asm__(
    ".section .start, \"ax\"\n.globl board_start\nboard_start:\n"
    "la sp, board_stack_top\nla t0, board_bss\nla t1, board_bss_end\n"
    "1: bgeu t0, t1, 2f\nsw zero, 0(t0)\naddi t0, t0, 4\nj 1b\n2: j board_begin_here\n.text\n");
