/*
 * Firmware for the signals of one controller: DCC in, LEDs out. table.h says whose; README.md how to build it, and how
 * it gets on a board.
 *
 * For model railways only. See "Before you solder" in the project's README for fuses, wire, supplies and flashing
 * light.
 */
#include "board.h"
#include "line.h"
#include "store.h"
/* The reader's functions may be put where they are called: 646 LEDs are worked out 1.9 ms sooner. */
#define DOUBLET_FUNCTION static __attribute__((unused))
#ifdef TABLE_HEADER
#include TABLE_HEADER
#else
#include "table.h"
#endif
#include "servos.h"
#include "switches.h"

#if defined(__AVR_ATmega328P__) && TABLE_CHAINS > 6
#error "atmega328p.c has pins for six chains: make two of them one, or move some to another controller"
#endif

#ifdef __AVR__
#include <avr/pgmspace.h>
#else
#define PSTR(text) (text)
#define pgm_read_byte(p) (*(p))
#endif

#define AT_LEAST_MS 1000u /* LEDs that a disturbance has changed are put right */
#define TEST_MS 1000u     /* a colour of the lamp test */
#define KEEP_MS 10000u    /* states are kept once they have stood so long, */
#define SELDOM_MS 60000u  /* and so long after the last time, as the memory wears */

/* A byte is sent in 11 microseconds, or 16 where an edge of DCC comes. */
#define SENDING_MS (uint8_t)(TABLE_LED_BYTES / 80u + 1u)

#define SAVED_BYTES (TABLE_UNITS + DOUBLET_SAVED)
#define SIDES (TABLE_CHAINS > 1 ? 2u : 1u)

static uint8_t state[TABLE_STATE_BYTES];

/* LEDs are worked out and sent in one go, so between two refreshes the room is free for states on their way to the
 * memory that keeps them. */
static union {
  uint8_t leds[SIDES][TABLE_LED_BYTES + 3]; /* a LED of 4 channels may reach over the end */
  uint8_t saved[SAVED_BYTES];
} room;

static struct doublet signals;
static struct store store;
static struct line line;
static uint8_t changed;        /* 1 when LEDs are to be sent */
static uint8_t to_keep;        /* 1 when states have changed since they were kept */
static uint16_t saved_bytes;   /* of the states of this table, as they are kept */
static uint32_t changed_at, kept_at;
static uint32_t kept;          /* the checksum of the states that are kept; 0 when none are */
static const char *words;      /* what is still to be printed, in program memory; or NULL */
static const char *more_words; /* what comes behind it */

static void note(uint32_t now) {
  changed = to_keep = 1;
  changed_at = now;
}

/* Takes all packets that have arrived. */
static void listen(uint32_t now) {
  uint8_t packet[6], length;
  while ((length = board_packet(packet)) > 0)
    if (doublet_packet(&signals, TABLE_BUS, packet, length, now) > 0) note(now);
}

/* Shows a value at an address by hand; an address is counted as the layout counts it. */
static void try(uint32_t now) {
  const uint16_t address = switch_address(&signals, TABLE_BUS, line.numbers[0]), value = line.numbers[1];
  uint16_t taken;
  if (address == SWITCH_NONE || value > 255) {
    words = PSTR("address 1 to 2048, value 0 to 255\r\n");
    return;
  }
  taken = doublet_extended(&signals, TABLE_BUS, address, (uint8_t)value, now);
  if (value < 2) taken = (uint16_t)(taken + doublet_accessory(&signals, TABLE_BUS, address, (uint8_t)value, now));
  if (taken > 0) note(now);
  words = taken > 0 ? PSTR("taken\r\n") : PSTR("no signal listens there to that\r\n");
}

/* The serial line. */
static void talk(uint32_t now) {
  const char c = board_typed(), next = words ? (char)pgm_read_byte(words) : 0;
  if (next) {
    if (board_print(next)) words++;
  } else {
    words = more_words;
    more_words = NULL;
  }
  if (!c) return;
  switch (line_take(&line, c)) {
    case LINE_WHOLE: try(now); break;
    case LINE_WRONG: words = PSTR("give an address and a value\r\n"); break;
    case LINE_NONE: break;
  }
}

/* The lamp test: one colour after another while the button is held. */
static void test(uint32_t now) {
  static uint8_t colour;
  static uint32_t since;
  if (!board_pressed()) {
    if (colour == 0) return;
    colour = 0;
  } else {
    if (colour > 0 && now - since < TEST_MS) return;
    colour = colour < signals.colours ? (uint8_t)(colour + 1) : 1;
    since = now;
  }
  doublet_set_test(&signals, colour);
  changed = 1;
}

/* What cannot wait for a refresh, which takes some twenty milliseconds with hundreds of LEDs. */
static void attend(uint32_t now) {
  listen(now);
  talk(now);
  servos_attend(&signals);
}

/* What cannot wait while a chain is sent. */
static void attend_ahead(uint32_t now) {
#ifdef DOUBLET_SERVOS
  servos_move(&signals, SENDING_MS);
  listen(now);
#else
  (void)now;
#endif
}

/* The states as they are kept; their last four bytes, a checksum, are told. */
static uint32_t save(void) {
  uint32_t sum;
  doublet_save(&signals, room.saved, sizeof room.saved);
  memcpy(&sum, room.saved + saved_bytes - sizeof sum, sizeof sum);
  return sum;
}

/* Keeps states that have stood for a while, if they are not those kept. Should they change while they are being
 * written, that is given up: the slot is not whole, and the one before still is. */
static void keep(uint32_t now) {
  static uint32_t writing;
  static uint8_t under_way;
  if (under_way) {
    if (save() == writing) {
      under_way = store_go_on(&store, room.saved);
      if (!under_way) kept = writing;
    } else {
      store_stop(&store);
      under_way = 0;
      to_keep = 1;
    }
    return;
  }
  if (!to_keep || now - changed_at < KEEP_MS || (kept_at && now - kept_at < SELDOM_MS)) return;
  to_keep = 0;
  writing = save();
  if (writing == kept) return;
  kept_at = now;
  store_begin(&store);
  under_way = 1;
}

/* The states kept last, or else the rest states of the table. */
static void recall(void) {
  saved_bytes = (uint16_t)(doublet_units(&signals) + DOUBLET_SAVED);
  switch (store_find(&store, room.saved, saved_bytes)) {
    case STORE_WHOLE:
      memcpy(&kept, room.saved + saved_bytes - sizeof kept, sizeof kept);
      if (doublet_restore(&signals, room.saved, saved_bytes)) more_words = PSTR("as before power was lost\r\n");
      else more_words = PSTR("at rest: what was kept is another table's\r\n");
      return;
    case STORE_BLANK: more_words = PSTR("at rest: nothing was kept yet\r\n"); break;
    case STORE_DAMAGED: more_words = PSTR("at rest: what was kept is not whole, or another table's\r\n"); break;
    case STORE_NO_ROOM: more_words = PSTR("at rest: too many signals to keep their states\r\n"); break;
  }
}

/* 1 when the chains of a table fit the room for their bytes. */
static uint8_t has_room(void) {
  uint8_t chain;
  for (chain = 0; chain < signals.chains; chain++) {
    struct doublet_frame frame;
    doublet_begin(&frame, &signals, chain, 0);
    if ((uint32_t)frame.left * doublet_channels(&frame) > TABLE_LED_BYTES) return 0;
  }
  return signals.chains <= TABLE_CHAINS;
}

/* Opens the table that a bootloader has written, and takes states back; or else the program's own, whose signals are at
 * rest when it stands for one that is not whole. */
static void open_table(void) {
  const uint8_t *const later = TABLE_LATER;
  const uint16_t length = later ? (uint16_t)(DOUBLET_BYTE(later + 6) | DOUBLET_BYTE(later + 7) << 8) : 0xFFFFu;
  enum doublet_reason why;
  if (length == 0xFFFFu) {
    why = DOUBLET_TOO_SHORT; /* none was written */
  } else if (length > TABLE_ROOM) {
    why = DOUBLET_WRONG_LENGTH;
    words = PSTR("the table written later is longer than its room: ");
  } else {
    why = doublet_open(&signals, later, length, state, sizeof state);
    if (why == DOUBLET_OK && has_room()) {
      words = PSTR("the table written later: ");
      recall();
      return;
    }
    if (why == DOUBLET_OK || why == DOUBLET_STATE_TOO_SMALL)
      words = PSTR("the table written later wants more memory: ");
    else if (why == DOUBLET_LEFT_OUT)
      words = PSTR("the table written later needs what table.h leaves out: ");
    else
      words = PSTR("the table written later is not whole: ");
  }
  why = doublet_open(&signals, TABLE, sizeof TABLE, state, sizeof state);
  /* When its own is refused, nothing is shown. */
  if (why == DOUBLET_LEFT_OUT) more_words = PSTR("dark, as the program's own table needs what table.h leaves out\r\n");
  else if (why != DOUBLET_OK) more_words = PSTR("dark, as the program's own table is damaged\r\n");
  else if (!words) recall();
  else more_words = PSTR("at rest, with the program's own\r\n");
}

/* The bytes of a chain. Packets and what is typed are taken as they come, between two LEDs. Returns for how long the LEDs
 * need no others. */
static uint16_t fill(uint8_t chain, uint8_t *bytes, uint32_t now) {
  struct doublet_frame frame;
  uint8_t *const end = bytes + TABLE_LED_BYTES;
  uint8_t i = 0, count;
  doublet_begin(&frame, &signals, chain, now);
  while (bytes < end && (count = doublet_next(&frame, bytes)) > 0) {
    bytes += count;
    if (++i % 16 == 0) attend(now);
  }
  while (bytes < end) *bytes++ = 0;
  return doublet_quiet(&frame);
}

/* Sends what every chain shows, two at once. Returns for how long that will do. */
static uint16_t refresh(uint32_t now) {
  uint16_t quiet = AT_LEAST_MS, other;
  uint8_t chain;
  for (chain = 0; chain < signals.chains; chain = (uint8_t)(chain + 2)) {
    other = fill(chain, room.leds[0], now);
    if (other < quiet) quiet = other;
    if (signals.chains - chain < 2) {
      attend_ahead(now);
      board_send(chain, room.leds[0], TABLE_LED_BYTES);
    } else {
      other = fill((uint8_t)(chain + 1), room.leds[SIDES - 1], now);
      if (other < quiet) quiet = other;
      attend_ahead(now);
      board_send_two(chain, room.leds[0], room.leds[SIDES - 1], TABLE_LED_BYTES);
    }
  }
  return quiet;
}

int main(void) {
  uint32_t sent = 0;
  uint16_t quiet = 0;
  board_begin();
  open_table();
  changed = 1;
  for (;;) {
    const uint32_t now = board_millis();
    attend(now);
    test(now);
    keep(now);
    if (changed || now - sent >= quiet) {
      changed = 0;
      sent = now;
      quiet = refresh(now);
    }
  }
}
