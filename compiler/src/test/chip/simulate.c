/*
 * Runs a program of an ATmega328P cycle by cycle: prints what it writes to GPIOR1 and, when it sleeps with
 * interrupts off, what each marked stretch cost. A mark is 0xFF in GPIOR0 where a stretch begins and the
 * stretch's number where it ends. The stack pointer is looked at after each instruction, so the stack of a
 * stretch is how far below its beginning it ever stood.
 *
 *   simulate program.elf
 */
#include <sim_avr.h>
#include <sim_elf.h>
#include <stdio.h>
#include <stdlib.h>

#include "board/board.h"

enum { GPIOR0_AT = 0x3E, GPIOR1_AT = 0x4A, BEGIN = 0xFF };

#define STRETCH_TEXT(name, text) text,
static const char *const texts[] = {"", STRETCHES(STRETCH_TEXT)};

static struct {
  uint64_t largest, sum, count;
  unsigned stack;
} noted[STRETCH_COUNT];

static avr_cycle_count_t began;
static unsigned top, lowest;

static unsigned stack_pointer(const avr_t *avr) {
  return (unsigned)avr->data[R_SPL] | (unsigned)avr->data[R_SPH] << 8;
}

static void mark(struct avr_t *avr, avr_io_addr_t address, uint8_t value, void *unused) {
  (void)address;
  (void)unused;
  if (value == BEGIN) {
    began = avr->cycle;
    top = lowest = stack_pointer(avr);
  } else if (value < STRETCH_COUNT) {
    const uint64_t cycles = avr->cycle - began;
    if (cycles > noted[value].largest) noted[value].largest = cycles;
    if (top - lowest > noted[value].stack) noted[value].stack = top - lowest;
    noted[value].sum += cycles;
    noted[value].count++;
  }
}

static void print(struct avr_t *avr, avr_io_addr_t address, uint8_t value, void *unused) {
  (void)avr;
  (void)address;
  (void)unused;
  putchar(value);
}

static void silence(avr_t *avr, const int level, const char *format, va_list arguments) {
  (void)avr;
  if (level <= LOG_ERROR) vfprintf(stderr, format, arguments);
}

int main(int count, char **arguments) {
  static elf_firmware_t firmware;
  avr_t *avr = avr_make_mcu_by_name("atmega328p");
  avr_global_logger_set(silence);
  if (count != 2 || !avr || elf_read_firmware(arguments[1], &firmware) != 0) {
    fprintf(stderr, "simulate: give one program for an ATmega328P\n");
    return 2;
  }
  avr_init(avr);
  firmware.frequency = 16000000;
  avr_load_firmware(avr, &firmware);
  avr_register_io_write(avr, GPIOR0_AT, mark, NULL);
  avr_register_io_write(avr, GPIOR1_AT, print, NULL);
  avr->run_cycle_limit = 1; /* one instruction at a time */
  for (;;) {
    const int state = avr_run(avr);
    const unsigned now = stack_pointer(avr);
    if (now < lowest) lowest = now;
    if (state == cpu_Crashed) {
      fprintf(stderr, "simulate: the program crashed\n");
      return 1;
    }
    if (state == cpu_Done) break;
  }
  for (int i = STRETCH_NOTHING + 1; i < STRETCH_COUNT; i++) {
    const uint64_t own = noted[STRETCH_NOTHING].count ? noted[STRETCH_NOTHING].largest : 0;
    if (noted[i].count == 0) continue;
    printf("%s %lu %lu %lu %u\n", texts[i], noted[i].largest - own,
           (noted[i].sum + noted[i].count / 2) / noted[i].count - own, noted[i].count, noted[i].stack);
  }
  return 0;
}
