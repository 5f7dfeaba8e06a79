/*
 * The reader of tables for pages: doublet_reader.h as a WebAssembly module without imports. One
 * instance is one controller. Whoever calls puts a table, and the bytes of a command, where table()
 * and command() say, and finds what a chain is sent where leds() says. All numbers are 32 bits.
 */
#include <stdint.h>

struct __attribute__((packed)) word {
  uint16_t number;
};

/* A page is to be small, so no function is copied to where it is called. */
#define always_inline

/* Here any place may be read as a little-endian word at once. */
#define DOUBLET_BYTE(p) (*(p))
#define DOUBLET_WORD(p) (((const struct word *)(p))->number)
/* A page is to be small, and clang copies what is called once. */
#define DOUBLET_FUNCTION static __attribute__((unused, noinline))
#define DOUBLET_FADES
#include "doublet_reader.h"

#define EXPORT(name) __attribute__((export_name(name)))
#define MOST_TABLE 65535u
#define MOST_UNITS 8192u
#define MOST_COMMAND 512u
#define MOST_LED_BYTES (4u * 65535u)

/* What is named most is named first, as clang puts first what it meets first, and low addresses are
 * short. */
static struct doublet signals;
static uint8_t command_bytes[MOST_COMMAND];
static uint8_t table_bytes[MOST_TABLE];
static uint8_t state_bytes[DOUBLET_UNIT * MOST_UNITS];
static uint8_t led_bytes[MOST_LED_BYTES];

EXPORT("units") uint32_t units(void) { return doublet_units(&signals); }

/* clang makes calls of it where it clears a struct. */
void *memset(void *to, int byte, size_t count) {
  volatile uint8_t *p = to;
  for (; count > 0; count--) *p++ = (uint8_t)byte;
  return to;
}

EXPORT("command") uint8_t *command(void) { return command_bytes; }

EXPORT("table") uint8_t *table(void) { return table_bytes; }

EXPORT("leds") uint8_t *leds(void) { return led_bytes; }

EXPORT("state") uint8_t *state(void) { return state_bytes; }

/* Opens a table of so many bytes: 0, or the reason why it is refused. Of more than fit no more need
 * be there, as the size alone refuses them. */
EXPORT("open") uint32_t open(uint32_t size) {
  return doublet_open(&signals, table_bytes, size, state_bytes, sizeof state_bytes);
}

EXPORT("chains") uint32_t chains(void) { return signals.chains; }

/* Milliseconds of the shortest rhythm; 0 when nothing flashes. */
EXPORT("shortest") uint32_t shortest(void) {
  uint32_t least = 0;
  for (uint8_t i = 0; signals.units > 0 && i < table_bytes[14] && i < 16; i++) {
    const uint16_t period = doublet_u16(doublet_rhythm(&signals, i));
    if (least == 0 || period < least) least = period;
  }
  return least;
}

EXPORT("packet") uint32_t packet(uint32_t bus, uint32_t length, uint32_t now) {
  return doublet_packet(&signals, (uint8_t)bus, command_bytes, length, now);
}

/* The payload stands behind the topic. */
EXPORT("topic")
uint32_t topic(uint32_t bus, uint32_t topic_length, uint32_t payload_length, uint32_t now) {
  const char *text = (const char *)command_bytes;
  return doublet_topic(&signals, (uint8_t)bus, text, topic_length, text + topic_length,
                       payload_length, now);
}

EXPORT("event") uint32_t event(uint32_t bus, uint32_t high, uint32_t low, uint32_t now) {
  return doublet_event(&signals, (uint8_t)bus, (uint64_t)high << 32 | low, now);
}

EXPORT("aspect") uint32_t aspect(uint32_t unit, uint32_t now) {
  return doublet_aspect(&signals, (uint16_t)unit, now);
}

EXPORT("night") void night(uint32_t on) { doublet_set_night(&signals, (uint8_t)on); }

EXPORT("approach") void approach(uint32_t unit, uint32_t on, uint32_t now) {
  doublet_set_approach(&signals, (uint16_t)unit, (uint8_t)on, now);
}

/* Works out what a chain is sent; returns how many bytes. */
EXPORT("frame") uint32_t frame(uint32_t chain, uint32_t now) {
  return doublet_leds(&signals, (uint8_t)chain, now, led_bytes, sizeof led_bytes);
}
