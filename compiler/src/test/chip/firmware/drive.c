/*
 * Drives the firmware of examples/firmware on a cycle-true ATmega328P: edges of DCC go in at the capture pin, the
 * waveforms of the LED pins are decoded, and each LED is held against what the reader, compiled for this machine, says
 * that it shows. Compiled with the same table as the firmware: c.h's, and LONGEST, the bytes of its longest chain. Where
 * the firmware fades, RISEN_MS is for how long lamps may be on their way: only signals that rest are judged, as this
 * machine's reader has none of it.
 *
 *   drive traffic program.elf COMMANDS EACH   every EACHth packet a command that changes an aspect, idle ones between,
 *                                             back to back as fast as a sender may
 *   drive power program.elf                   a command, a cut of power, typed lines, the lamp test
 *   drive later program.elf table.hex         a table written page by page, as bootloaders do, and cut after each
 *   drive arms program.elf ADDRESS FROM TO    one value at an address, and when its arms have come to rest another
 *
 * Prints a figure or a fact a line. Sources: NMRA S-9.1 (2020) for 55 and 95 us, the sender's least halves; S-9.2
 * (2004) for a preamble of 14 ones, the first of which may be the end bit before.
 */
#include <avr_eeprom.h>
#include <avr_ioport.h>
#include <avr_uart.h>
#include <sim_avr.h>
#include <sim_elf.h>
#include <sim_hex.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "doublet_reader.h"

#include "c.h"

enum { MICROSECOND = 16, ONE = 55 * MICROSECOND, ZERO = 95 * MICROSECOND, REST = 300 * MICROSECOND };
enum { CHAINS = C_CHAINS, LINE_BYTES = LONGEST, PICTURE = 16, PHASES = 2 };
enum { PULSES = 5, NEAR_US = 5 };
#ifdef DOUBLET_SERVOS
enum { TRAVEL_MS = 2000, SEEN_MS = 2500 }; /* no arm travels longer; all have been seen at rest */
#else
enum { SEEN_MS = 1500 };
#endif

#ifndef RISEN_MS
#define RISEN_MS 0
#endif

static avr_t *avr;
static avr_irq_t *track_pin;

/* ---- What should be shown ---- */

struct place {
  uint8_t chain, bytes;
  uint16_t at;
};
static struct place places[C_UNITS];

typedef uint8_t picture[PHASES][PICTURE]; /* while flashing lamps are lit, and while they are dark */

struct expectation {
  picture before, now;
  avr_cycle_count_t changed; /* when there was a command last that changed it */
  avr_cycle_count_t since; /* when the command was whole; 0 once it has been seen */
  unsigned seen;           /* phases seen of the last state */
};
static struct expectation expected[C_UNITS];

static uint8_t state[C_STATE_BYTES];
static struct doublet signals;
static const uint8_t *table = c_table;
static size_t table_size = sizeof c_table;

static void find_places(void) {
  for (uint8_t chain = 0; chain < CHAINS; chain++) {
    struct doublet_frame walk;
    const uint8_t channels = table[table[18] + 256 * table[19] + 9 * chain + 2] & DOUBLET_LOW;
    unsigned led = 0;
    doublet_walk(&walk, &signals, chain);
    while (doublet_go_on(&walk)) {
      led += walk.dark;
      if (walk.leds == 0) continue;
      places[walk.unit - 1] = (struct place){chain, (uint8_t)(walk.leds * channels), (uint16_t)(led * channels)};
      led += walk.leds;
    }
  }
}

/* The rhythms of the table have one period, lit in its first half: two moments are all there is to see. */
static void render(struct doublet *d, unsigned unit, picture *shown) {
  static uint8_t bytes[LINE_BYTES + 4];
  const struct place *p = &places[unit];
  memset(*shown, 0, sizeof *shown);
  for (unsigned phase = 0; phase < PHASES; phase++) {
    doublet_leds(d, p->chain, 600 * phase, bytes, sizeof bytes);
    memcpy((*shown)[phase], bytes + p->at, p->bytes);
  }
}

/* ---- The lines of the LEDs ---- */

static struct {
  uint8_t bytes[LINE_BYTES];
  unsigned bits;
  avr_cycle_count_t rose, fell, last_end;
  int was;
} lines[CHAINS];

static struct {
  unsigned long high[2][2], low[2][2]; /* least and most of zeros and ones, within bytes */
  unsigned long gap, frames, wrong, odd, part;
  unsigned long applied, lost, latency, latency_sum, interval, interval_sum, intervals;
} seen;

static void range(unsigned long extremes[2], unsigned long value) {
  if (extremes[0] == 0 || value < extremes[0]) extremes[0] = value;
  if (value > extremes[1]) extremes[1] = value;
}

static int is_as(const struct place *p, picture *shown) {
  for (int phase = 0; phase < PHASES; phase++)
    if (memcmp(lines[p->chain].bytes + p->at, (*shown)[phase], p->bytes) == 0) return 1 << phase;
  return 0;
}

/* 1 while lamps may show anything, as they are on their way. */
static int moves(const struct expectation *e, const struct place *p) {
  const avr_cycle_count_t risen = 1000ull * RISEN_MS * MICROSECOND;
  return risen > 0 && (avr->cycle - e->changed < risen || memcmp(e->now[0], e->now[1], p->bytes) != 0);
}

static void frame(unsigned chain) {
  seen.frames++;
  if (lines[chain].last_end) {
    const unsigned long interval = avr->cycle - lines[chain].last_end;
    if (interval > seen.interval) seen.interval = interval;
    seen.interval_sum += interval;
    seen.intervals++;
  }
  lines[chain].last_end = avr->cycle;
  for (unsigned unit = 0; unit < C_UNITS; unit++) {
    struct expectation *e = &expected[unit];
    if (places[unit].chain != chain) continue;
    const int as = is_as(&places[unit], &e->now);
    e->seen |= as;
    if (as && e->since) {
      const unsigned long latency = avr->cycle - e->since;
      if (latency > seen.latency) seen.latency = latency;
      seen.latency_sum += latency;
      seen.applied++;
      e->since = 0;
    } else if (!as && !moves(e, &places[unit]) && !(e->since && is_as(&places[unit], &e->before))) {
      seen.wrong++;
    }
  }
}

static void line_changed(avr_irq_t *irq, uint32_t value, void *chain_of) {
  const unsigned chain = (unsigned)(uintptr_t)chain_of;
  const avr_cycle_count_t now = avr->cycle;
  (void)irq;
  if ((int)value == lines[chain].was) return;
  lines[chain].was = (int)value;
  if (value) {
    const unsigned long low = now - lines[chain].fell;
    const int one = lines[chain].fell - lines[chain].rose > 9;
    if (lines[chain].bits == 0) {
      if (lines[chain].fell && low < REST) seen.part++; /* the line had no rest */
    } else if (lines[chain].bits % 8) {
      range(seen.low[one], low);
    } else if (low > seen.gap) {
      seen.gap = low;
    }
    lines[chain].rose = now;
    return;
  }
  const unsigned long high = now - lines[chain].rose;
  const int one = high > 9;
  const unsigned bit = lines[chain].bits++;
  range(seen.high[one], high);
  lines[chain].fell = now;
  lines[chain].bytes[bit / 8] = (uint8_t)(lines[chain].bytes[bit / 8] << 1 | one);
  if (lines[chain].bits == 8 * LINE_BYTES) {
    lines[chain].bits = 0;
    frame(chain);
  }
}

/* ---- The pulses of the servos ---- */

static struct {
  avr_cycle_count_t rose, away; /* away: when it was last not where it is to be */
  unsigned long width, pulses;
  int was, servo;
} arms[PULSES];

static struct {
  unsigned long period[2], step, judged;
  long off[2];
} pulsed;

#ifdef DOUBLET_SERVOS
/* What a servo's pulse is to be once its arm is at rest, in cycles. */
static long target(int servo) {
  struct doublet_servo at = {0, 0};
  return MICROSECOND * (long)doublet_pulse(&signals, (uint8_t)servo, &at, 0);
}

static void find_servos(void) {
  for (int i = 0; i < doublet_servos(&signals); i++) arms[doublet_channel(&signals, (uint8_t)i)].servo = i;
}

static avr_cycle_count_t commanded(int servo) {
  const uint8_t *p = doublet_servo_record(&signals, (uint8_t)servo);
  return expected[doublet_u16(p + 1)].changed;
}

static void pulse_changed(avr_irq_t *irq, uint32_t value, void *channel_of) {
  const unsigned channel = (unsigned)(uintptr_t)channel_of;
  const avr_cycle_count_t now = avr->cycle;
  (void)irq;
  if ((int)value == arms[channel].was) return;
  arms[channel].was = (int)value;
  if (value) {
    if (arms[channel].rose) range(pulsed.period, now - arms[channel].rose);
    arms[channel].rose = now;
    return;
  }
  const unsigned long width = now - arms[channel].rose, before = arms[channel].width;
  const unsigned long step = width > before ? width - before : before - width;
  if (arms[channel].pulses++ > 0 && step > pulsed.step) pulsed.step = step;
  const long off = (long)width - target(arms[channel].servo);
  if (labs(off) > NEAR_US * MICROSECOND) arms[channel].away = now;
  arms[channel].width = width;
  if (now - commanded(arms[channel].servo) > 1000ull * TRAVEL_MS * MICROSECOND) {
    if (pulsed.judged++ == 0) pulsed.off[0] = pulsed.off[1] = off;
    if (off < pulsed.off[0]) pulsed.off[0] = off;
    if (off > pulsed.off[1]) pulsed.off[1] = off;
  }
}
#endif

/* ---- The track ---- */

struct command {
  uint16_t address;
  uint8_t basic, value;
};
static struct command targets[2 * 2047];
static unsigned target_count, next_target;

static struct {
  uint8_t bytes[4], length;
  struct command command;
  int counted;  /* -1: tells the host's reader nothing */
  unsigned bit; /* of the packet, its preamble included */
  int half, level;
} track;

static unsigned commands_left, commands_sent, each = 1, packets, primed;
static int stretched;      /* 1 while zeros are longer, as they may be (S-9.1): 0.95 ms each half here, of 9.9 */
static int idle_alone = 1; /* until signals in code have heard each of their addresses */

static uint16_t take(struct doublet *d, const struct command *c) {
  return c->basic ? doublet_accessory(d, C_BUS_TRACK, c->address, c->value, 0)
                  : doublet_extended(d, C_BUS_TRACK, c->address, c->value, 0);
}

static void find_targets(void) {
  for (uint16_t address = 0; address < 2047; address++) {
    for (uint8_t basic = 0; basic < 2; basic++) {
      const struct command c = {address, basic, 0};
      uint8_t keep[sizeof state];
      memcpy(keep, state, sizeof state);
      if (take(&signals, &c) > 0) targets[target_count++] = c;
      memcpy(state, keep, sizeof state);
    }
  }
}

static void shuffle(void) {
  for (unsigned i = target_count; i > 1; i--) {
    const unsigned j = (unsigned)rand() % i;
    const struct command c = targets[i - 1];
    targets[i - 1] = targets[j];
    targets[j] = c;
  }
}

/* 1 when a command would change what one signal shows, and at no moment to what it might show now. Nobody could see
 * whether a command was obeyed whose signal has another one before its LEDs were sent: such are not chosen. */
static int changes(const struct command *c) {
  uint8_t keep[sizeof state];
  int changed = 0;
  memcpy(keep, state, sizeof state);
  take(&signals, c);
  for (unsigned unit = 0; unit < C_UNITS && !changed; unit++) {
    picture then;
    if (state[DOUBLET_UNIT * unit] == keep[DOUBLET_UNIT * unit]) continue;
    render(&signals, unit, &then);
    changed = expected[unit].since == 0;
    for (int i = 0; i < PHASES * PHASES; i++)
      if (memcmp(then[i / PHASES], expected[unit].now[i % PHASES], places[unit].bytes) == 0) changed = 0;
    if (!changed) break;
  }
  memcpy(state, keep, sizeof state);
  return changed;
}

static int choose(struct command *c) {
  for (;;) {
    if (next_target == target_count) {
      shuffle();
      next_target = 0;
    }
    *c = targets[next_target++];
    const unsigned values = c->basic ? 2 : 32, first = (unsigned)rand() % values;
    for (unsigned i = 0; i < values; i++) {
      c->value = (uint8_t)((first + i) % values);
      if (changes(c)) return 1;
    }
  }
}

static void load(const struct command *c) {
  track.command = *c;
  track.bytes[0] = (uint8_t)(0x80 | (c->address >> 2 & 0x3F));
  track.bytes[1] = (uint8_t)((~(c->address >> 8) & 7) << 4 | (c->address & 3) << 1);
  if (c->basic) {
    track.bytes[1] |= 0x88 | c->value;
    track.length = 3;
  } else {
    track.bytes[1] |= 0x01;
    track.bytes[2] = c->value;
    track.length = 4;
  }
  track.bytes[track.length - 1] = 0;
  for (int i = 0; i < track.length - 1; i++) track.bytes[track.length - 1] ^= track.bytes[i];
}

static void next_packet(void) {
  struct command c;
  track.bit = 0;
  track.counted = -1;
  if (!idle_alone && primed < target_count) {
    /* Outputs of signals in code must each be heard once; nothing is counted. */
    load(&targets[primed++]);
    track.counted = 0;
  } else if (!idle_alone && commands_left > 0 && packets++ % each == 0 && choose(&c)) {
    commands_left--;
    load(&c);
    track.counted = 1;
  } else {
    memcpy(track.bytes, "\xFF\x00\xFF", track.length = 3);
  }
}

/* What every unit shows may have changed: from now on the new is expected, and until it is seen the old is right. */
static void expect_changes(void) {
  for (unsigned unit = 0; unit < C_UNITS; unit++) {
    struct expectation *e = &expected[unit];
    picture now;
    render(&signals, unit, &now);
    if (memcmp(now, e->now, sizeof now) == 0) continue;
    if (e->since) seen.lost++;
    memcpy(e->before, e->now, sizeof e->now);
    memcpy(e->now, now, sizeof now);
    e->since = e->changed = avr->cycle;
    e->seen = 0;
  }
}

/* The last edge of the end bit: from now on the command holds. */
static void packet_over(void) {
  if (track.counted < 0) return;
  take(&signals, &track.command);
  expect_changes();
  if (track.counted) commands_sent++;
}

/* The bits of a packet behind the end bit before: 13 ones more, and after each byte the bit that goes on or ends. */
static int bit_now(void) {
  const unsigned bit = track.bit - 13;
  if (track.bit < 13) return 1;
  if (bit % 9 == 0) return bit / 9 == track.length;
  return track.bytes[bit / 9] >> (8 - bit % 9) & 1;
}

static avr_cycle_count_t edge(avr_t *of, avr_cycle_count_t when, void *unused) {
  (void)of;
  (void)unused;
  avr_raise_irq(track_pin, (uint32_t)(track.level ^= 1));
  if (track.half) {
    track.half = 0;
    if (track.bit++ == 13u + 9u * track.length) {
      packet_over();
      next_packet();
    }
  } else {
    track.half = 1;
  }
  return when + (bit_now() ? ONE : stretched ? 10 * ZERO : ZERO);
}

/* ---- The chip ---- */

static void said(avr_irq_t *irq, uint32_t value, void *unused) {
  (void)irq;
  (void)unused;
  if (value != '\r') putchar((int)value);
}

static void silence(avr_t *of, const int level, const char *format, va_list arguments) {
  (void)of;
  if (level <= LOG_ERROR) vfprintf(stderr, format, arguments);
}

static unsigned lowest = 0xFFFF, used;

static void start(const char *program) {
  static elf_firmware_t firmware;
  uint32_t flags = 0;
  avr_global_logger_set(silence);
  avr = avr_make_mcu_by_name("atmega328p");
  memset(&firmware, 0, sizeof firmware);
  if (!avr || elf_read_firmware(program, &firmware) != 0) {
    fprintf(stderr, "drive: give a program for an ATmega328P\n");
    exit(2);
  }
  avr_init(avr);
  firmware.frequency = 16000000;
  avr_load_firmware(avr, &firmware);
  avr->run_cycle_limit = 1; /* one instruction at a time, so that edges come to the cycle */
  used = 0x100 + firmware.datasize + firmware.bsssize;
  avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), said, NULL);
  track_pin = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), 0);
  memset(lines, 0, sizeof lines);
  for (unsigned chain = 0; chain < CHAINS; chain++)
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('C'), (int)chain), line_changed,
                            (void *)(uintptr_t)chain);
#ifdef DOUBLET_SERVOS
  for (unsigned channel = 0; channel < PULSES; channel++)
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), (int)channel + 3), pulse_changed,
                            (void *)(uintptr_t)channel);
#endif
  avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), 2), 1);
  next_packet();
  avr_cycle_timer_register(avr, ONE, edge, NULL);
}

static void run_for(unsigned long long microseconds) {
  const avr_cycle_count_t until = avr->cycle + MICROSECOND * microseconds;
  while (avr->cycle < until) {
    const int now = avr_run(avr);
    const unsigned stack = (unsigned)avr->data[R_SPL] | (unsigned)avr->data[R_SPH] << 8;
    if (stack && stack < lowest) lowest = stack;
    if (now == cpu_Crashed || now == cpu_Done) {
      fprintf(stderr, "drive: the program ended\n");
      exit(1);
    }
  }
}

static void run(unsigned long milliseconds) { run_for(1000ull * milliseconds); }

static void expect_rest(void) {
  memset(expected, 0, sizeof expected);
  if (doublet_open(&signals, table, table_size, state, sizeof state) != DOUBLET_OK) exit(2);
  find_places();
#ifdef DOUBLET_SERVOS
  find_servos();
#endif
  for (unsigned unit = 0; unit < C_UNITS; unit++) render(&signals, unit, &expected[unit].now);
}

static void type(const char *text) {
  for (; *text; text++) {
    avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT), (uint8_t)*text);
    run_for(2083); /* a character of ten bits at 4800 bit/s */
  }
  run(200);
}

static void print_line(const char *name, unsigned long value) { printf("%s %lu\n", name, value); }

static void report(void) {
  print_line("frames", seen.frames);
  print_line("wrong", seen.wrong);
  print_line("unrested", seen.part);
  print_line("zero-high-least", seen.high[0][0]);
  print_line("zero-high-most", seen.high[0][1]);
  print_line("one-high-least", seen.high[1][0]);
  print_line("one-high-most", seen.high[1][1]);
  print_line("zero-low-least", seen.low[0][0]);
  print_line("zero-low-most", seen.low[0][1]);
  print_line("one-low-least", seen.low[1][0]);
  print_line("one-low-most", seen.low[1][1]);
  print_line("gap-most", seen.gap);
  print_line("room", lowest - used);
  if (pulsed.judged == 0) return;
  print_line("pulses-judged", pulsed.judged);
  print_line("pulse-short-most", pulsed.off[0] < 0 ? (unsigned long)-pulsed.off[0] : 0);
  print_line("pulse-long-most", pulsed.off[1] > 0 ? (unsigned long)pulsed.off[1] : 0);
  print_line("pulse-step-most", pulsed.step);
  print_line("period-least-us", pulsed.period[0] / MICROSECOND);
  print_line("period-most-us", pulsed.period[1] / MICROSECOND);
}

static void traffic(const char *program, unsigned commands, unsigned every) {
  expect_rest();
  find_targets();
  start(program);
  run(300);
  idle_alone = 0;
  next_target = target_count;
  while (primed < target_count) run(1);
  run(300 + RISEN_MS);
  seen.applied = seen.lost = seen.latency = seen.latency_sum = 0;
  each = every;
  packets = 0;
  commands_left = commands;
  while (commands_sent < 10) run(1);
  seen.interval = seen.interval_sum = seen.intervals = 0; /* from here on no refresh waits for a first command */
  for (unsigned chain = 0; chain < CHAINS; chain++) lines[chain].last_end = 0;
  while (commands_left > 0) run(1);
  const unsigned long interval = seen.interval, mean = seen.interval_sum / seen.intervals;
  run(SEEN_MS);
  unsigned waiting = 0, unseen = 0;
  for (unsigned unit = 0; unit < C_UNITS; unit++) {
    const struct expectation *e = &expected[unit];
    const int flashes = memcmp(e->now[0], e->now[1], places[unit].bytes) != 0;
    waiting += e->since != 0;
    unseen += e->seen != (flashes ? 3 : 1);
  }
  print_line("commands", commands_sent);
  print_line("applied", seen.applied);
  print_line("lost", seen.lost + waiting);
  print_line("not-as-at-last", unseen);
  print_line("interval-most-us", interval / MICROSECOND);
  print_line("interval-mean-us", mean / MICROSECOND);
  print_line("shown-most-us", seen.latency / MICROSECOND);
  print_line("shown-mean-us", seen.latency_sum / seen.applied / MICROSECOND);
  report();
}

/* What the memory holds is taken over from one chip to the next. */
static uint8_t memory[1024];

static void recall(void) {
  avr_eeprom_desc_t all = {memory, 0, sizeof memory};
  avr_ioctl(avr, AVR_IOCTL_EEPROM_GET, &all);
}

static void restart(const char *program) {
  avr_eeprom_desc_t all = {memory, 0, sizeof memory};
  avr_terminate(avr);
  start(program);
  avr_ioctl(avr, AVR_IOCTL_EEPROM_SET, &all);
}

static void told(const char *name) {
  unsigned waiting = 0;
  for (unsigned unit = 0; unit < C_UNITS; unit++) waiting += expected[unit].since != 0;
  printf("%s: frames %s, wrong %lu, waiting %u\n", name, seen.frames > 0 ? "sent" : "none", seen.wrong, waiting);
  memset(&seen, 0, sizeof seen);
}

static void power(const char *program) {
  const struct command by_hand = {4, 0, 2}; /* address 1 */
  expect_rest();
  find_targets();
  start(program);
  run(300);
  told("new");
  primed = next_target = target_count;
  idle_alone = 0;
  each = 1;
  commands_left = 30;
  while (commands_left > 0) run(1);
  run(500);
  told("thirty commands");
  stretched = 1;
  commands_left = 30;
  while (commands_left > 0) run(1);
  run(500);
  print_line("gap-most", seen.gap);
  told("stretched zeros");
  stretched = 0;
  run(11500); /* states are kept after ten seconds; a byte takes 3.4 ms */
  recall();
  idle_alone = 1;
  restart(program);
  run(500);
  told("power back");

  type("1 2\r");
  take(&signals, &by_hand);
  expect_changes();
  run(100);
  told("typed");
  idle_alone = 0; /* the track is busy, and LEDs are sent without a pause */
  commands_left = 10000;
  type("2049 0\r");
  type("x\r");
  type("2040 0\r");
  commands_left = 0;
  run(500);
  told("typed while busy");

  avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), 2), 0);
  for (uint8_t colour = 1; colour < 4; colour++) {
    doublet_set_test(&signals, colour);
    expect_changes();
    run(colour == 1 ? 950 : 1000);
    told("lamp test");
  }
  avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), 2), 1);
  doublet_set_test(&signals, 0);
  expect_changes();
  run(100);
  told("button let go");

  for (unsigned at = 0; at < sizeof memory; at += 16) memory[at] ^= 0x10;
  expect_rest();
  restart(program);
  run(500);
  told("memory damaged");
}

/* Pages of 128 bytes, the first of them whole, and then none, or one that is half written. */
static void later(const char *program, const char *hex) {
  enum { PAGE = 128 };
  uint32_t size = 0, at = 0;
  const uint8_t *bytes = read_ihex_file(hex, &size, &at);
  if (!bytes) exit(2);
  const int fits = doublet_open(&signals, bytes, size, state, sizeof state) == DOUBLET_OK;
  printf("%u bytes at %u\n", (unsigned)size, (unsigned)at);
  for (uint32_t whole = 0; whole < size + PAGE; whole += PAGE) {
    for (int half = 0; half < 2; half++) {
      const int all = whole >= size;
      table = all && fits ? bytes : c_table;
      table_size = all && fits ? size : sizeof c_table;
      expect_rest();
      start(program);
      memcpy(avr->flash + at, bytes, all ? size : whole);
      if (half && !all) memset(avr->flash + at + whole, 0x5A, PAGE);
      run(300);
      told(half ? "and half a page" : "whole pages");
      avr_terminate(avr);
    }
  }
}

/* How long arms are on their way, as their pulses tell it. */
static void travel(const char *program, struct command c, uint8_t to) {
  expect_rest();
  start(program);
  run(300);
  for (int i = 0; i < 2; i++, c.value = to) {
    const avr_cycle_count_t began = avr->cycle;
    char line[16];
    snprintf(line, sizeof line, "%u %u\r", (unsigned)c.address - 3, c.value);
    take(&signals, &c);
    expect_changes();
    type(line);
    run(SEEN_MS);
    for (unsigned channel = 0; channel < PULSES; channel++)
      if (arms[channel].away > began)
        printf("channel %u near %lu us after %lu ms\n", channel, (arms[channel].width + 8) / MICROSECOND,
               (unsigned long)((arms[channel].away - began) / MICROSECOND / 1000));
  }
  report();
}

int main(int count, char **arguments) {
  if (count == 6 && strcmp(arguments[1], "arms") == 0) {
    /* An address as the first decoder's first output is 1. */
    const struct command c = {(uint16_t)(atoi(arguments[3]) + 3), 0, (uint8_t)atoi(arguments[4])};
    travel(arguments[2], c, (uint8_t)atoi(arguments[5]));
    return 0;
  }
  if (count == 5 && strcmp(arguments[1], "traffic") == 0) {
    traffic(arguments[2], (unsigned)atoi(arguments[3]), (unsigned)atoi(arguments[4]));
    return 0;
  }
  if (count == 4 && strcmp(arguments[1], "later") == 0) {
    later(arguments[2], arguments[3]);
    return 0;
  }
  if (count == 3 && strcmp(arguments[1], "power") == 0) {
    power(arguments[2]);
    return 0;
  }
  return 2;
}
