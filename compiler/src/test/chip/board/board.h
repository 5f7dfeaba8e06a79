/*
 * What a program needs of the processor that it runs on: to print, to end, and to mark a stretch of itself
 * whose cost is wanted. Beside this file is one implementation a processor; each also starts the program.
 *
 * Marks: board_begin(); the call; board_end(STRETCH); the processor keeps, or its simulator keeps, the largest
 * cost of each stretch, the sum, the count and the deepest stack. board_report() prints them.
 */
#ifndef BOARD_H
#define BOARD_H

#include <stdint.h>

/* What is measured. The names are those of figures.txt. */
#define STRETCHES(X) \
  X(NOTHING, "nothing") \
  X(OPEN, "open") \
  X(COMMAND, "command") \
  X(BROADCAST, "broadcast") \
  X(BEGIN, "begin-frame") \
  X(LED, "led") \
  X(UNIT, "unit") \
  X(LAMP, "lamp") \
  X(DARK, "dark") \
  X(REFRESH, "refresh")

#define STRETCH_NUMBER(name, text) STRETCH_##name,
enum stretch { STRETCH_NONE, STRETCHES(STRETCH_NUMBER) STRETCH_COUNT };

void board_put(char c);
void board_stop(void);

/* Hexadecimal digits of a number, as many as are asked for. */
static inline void board_hex(uint32_t value, unsigned digits) {
  while (digits-- > 0) board_put("0123456789abcdef"[value >> 4 * digits & 15]);
}

/* A space and a number in decimal digits. */
static inline void board_number(uint32_t value) {
  char digits[10];
  uint8_t count = 0;
  do digits[count++] = (char)('0' + value % 10);
  while (value /= 10);
  board_put(' ');
  while (count > 0) board_put(digits[--count]);
}

#ifdef __AVR__
#include <avr/io.h>
/* The simulator watches these registers; see simulate.c. */
#define board_begin() (GPIOR0 = 0xFF)
#define board_end(stretch) (GPIOR0 = (stretch))
#define board_report() ((void)0)
#else
void board_report(void);

#define BOARD_STACK 1024u /* bytes below the stack pointer that are painted, to see how deep a call goes */
#define BOARD_PAINT 0xA5C3u

struct board_mark {
  uint32_t start;
  volatile uint16_t *floor;
};
extern struct board_mark board_mark;
void board_note(unsigned stretch, uint32_t ticks, unsigned stack);

/* A clock that goes on by the same for each instruction: see -icount in measure. */
static inline uint32_t board_ticks(void) {
  uint32_t ticks;
#if defined(__arm__)
  ticks = 0u - *(volatile uint32_t *)0xE000E018; /* SysTick, which counts down */
#else
  __asm__ volatile(".option push\n.option arch, +zicsr\nrdcycle %0\n.option pop" : "=r"(ticks));
#endif
  return ticks;
}

static inline volatile uint16_t *board_stack(void) {
  uintptr_t sp;
#if defined(__arm__)
  __asm__ volatile("mov %0, sp" : "=r"(sp));
#elif defined(__riscv)
  __asm__ volatile("mv %0, sp" : "=r"(sp));
#endif
  return (volatile uint16_t *)sp;
}

#define board_begin()                                                                \
  do {                                                                               \
    volatile uint16_t *painted = board_stack();                                      \
    board_mark.floor = painted - BOARD_STACK / 2;                                    \
    while (painted > board_mark.floor) *--painted = BOARD_PAINT;                     \
    board_mark.start = board_ticks();                                                \
  } while (0)

#define board_end(stretch)                                                           \
  do {                                                                               \
    const uint32_t now = board_ticks();                                              \
    volatile uint16_t *top = board_stack(), *seen = board_mark.floor;                \
    while (seen < top && *seen == BOARD_PAINT) seen++;                               \
    board_note(stretch, now - board_mark.start, (unsigned)(2 * (top - seen)));       \
  } while (0)
#endif

#endif
