/*
 * Signals on a board with a network; see mqtt_signals.h.
 *
 * For model railways only. See "Before you solder" in the project's README for fuses, wire, supplies and flashing
 * light.
 */
#include "mqtt_signals.h"

#include "mqtt.h"
#include "mqtt_board.h"
#ifdef MQTT_TABLE_HEADER
#include MQTT_TABLE_HEADER
#else
#include "mqtt_table.h"
#endif
#include "table_store.h"

#include <stdio.h>

#if TABLE_UNITS > UNIT_ROOM
#error "the table has more units than UNIT_ROOM"
#endif
#if TABLE_CHAINS > CHAIN_ROOM
#error "the table has more chains than CHAIN_ROOM"
#endif

#define KEEP_ALIVE_S 10u
#define PING_MS 5000u       /* half of it, so that one late is none */
#define ANSWER_MS 5000u     /* for CONNACK, PINGRESP and what else the broker owes */
#define AGAIN_MS 1000u      /* between tries to connect */
#define FRAME_MS 20u        /* between frames while something moves */
#define AT_LEAST_MS 1000u   /* LEDs that a disturbance has changed are put right */
#define NEVER_REPORTED 0xFF /* in both bytes: no aspect has this number */
#define TOPIC_ROOM 96u
#define LEAVING_ROOM 256u
#define BUILT_IN TABLE_SLOTS

/* A table that is open, and what its signals show. */
struct side {
  struct doublet signals;
  uint8_t table[TABLE_ROOM];
  uint8_t state[UNIT_ROOM * DOUBLET_UNIT];
  uint8_t slot;             /* where it is kept; BUILT_IN for the program's own */
};

static struct side sides[2];
static uint8_t shown;       /* which side is lit */
static uint8_t coming;      /* 1 when the other is to be, from the next frame on */
static uint32_t newest;     /* the number of the newest slot */
static uint32_t offered;    /* the last four bytes of the table offered last */
static const char *reason;

static const struct mqtt_names *names;
static struct mqtt client;
/* A topic that the layout gives may be longer than any of the board's own. */
static uint8_t arriving[TABLE_ROOM + TOPIC_ROOM + sizeof TABLE_COMMANDS + 4u];
static uint8_t leaving[LEAVING_ROOM + sizeof TABLE_COMMANDS];
static char state_topic[TOPIC_ROOM], table_topic[TOPIC_ROOM];
static uint8_t connected;   /* 1 while there is a connection */
static uint8_t asked;       /* 1 once subscribed, 2 when to be again */
static uint8_t told;        /* 1 when the state topic is as it should be */
static uint16_t reported[UNIT_ROOM];
static uint16_t reporting;  /* the unit whose report is looked after next */
static uint32_t tried_at, sent_at, waiting_since, lit_at;
static uint16_t quiet;      /* milliseconds for which LEDs need no frame */
static uint8_t changed;

/* ---- Tables ---- */

/* 1 when a table that is open has no more chains than the board, and each has room for its bytes. */
static uint8_t has_room(struct doublet *signals) {
  uint8_t chain;
  if (signals->chains > CHAIN_ROOM) return 0;
  for (chain = 0; chain < signals->chains; chain++) {
    struct doublet_frame frame;
    doublet_begin(&frame, signals, chain, 0);
    if ((uint32_t)frame.left * doublet_channels(&frame) > LED_ROOM) return 0;
  }
  return 1;
}

/* Opens the table of a side; refused ones leave it with none. */
static enum doublet_reason open_side(struct side *side, const uint8_t *table, uint16_t length) {
  return doublet_open(&side->signals, table, length, side->state, sizeof side->state);
}

static uint32_t last_four(const uint8_t *table, uint16_t length) {
  const uint8_t *p = table + length - 4;
  return length < 4 ? 0 : p[0] | (uint32_t)p[1] << 8 | (uint32_t)p[2] << 16 | (uint32_t)p[3] << 24;
}

/* Opens the newest table that is whole and sound, or else the program's own. */
static void open_newest(void) {
  struct side *side = &sides[0];
  struct table_slot found[TABLE_SLOTS];
  uint8_t slot, first, damaged = 0;
  for (slot = 0; slot < TABLE_SLOTS; slot++) {
    found[slot] = table_slot_read(slot, side->table, TABLE_ROOM);
    if (found[slot].number > newest) newest = found[slot].number;
    damaged |= found[slot].damaged;
  }
  first = found[1].number > found[0].number;
  for (slot = 0; slot < TABLE_SLOTS; slot++) {
    side->slot = first ^ slot;
    found[slot] = table_slot_read(side->slot, side->table, TABLE_ROOM);
    if (found[slot].number == 0) continue;
    if (open_side(side, side->table, found[slot].length) != DOUBLET_OK || !has_room(&side->signals)) {
      damaged = 1;
    } else {
      reason = damaged ? "sound, but what the other slot holds is not" : "sound";
      return;
    }
  }
  side->slot = BUILT_IN;
  reason = damaged ? "at rest with the program's own table: no slot holds a whole one"
                   : "at rest with the program's own table: none was kept yet";
  if (open_side(side, TABLE, sizeof TABLE) != DOUBLET_OK) reason = "dark: even the program's own table is damaged";
}

/* A table that was offered. The one that is shown stays until the new one has been opened, kept and read back. */
static void take_table(const uint8_t *table, uint16_t length) {
  struct side *other = &sides[!shown];
  const struct side *mine = &sides[shown];
  enum doublet_reason refused;
  uint8_t slot = mine->slot == 0;
  told = 0;
  offered = last_four(table, length);
  if (length == 0) {
    reason = "no table is offered";
    return;
  }
  if (length > TABLE_ROOM) {
    reason = "refused: over the room for a table";
    return;
  }
  if (coming) return; /* it comes again, as the next frame's subscription has it */
  if (length == mine->signals.limit + 4u && memcmp(table, mine->signals.table, length) == 0) {
    reason = "sound";
    return;
  }
  memcpy(other->table, table, length);
  refused = open_side(other, other->table, length);
  if (refused != DOUBLET_OK) {
    reason = doublet_reason_words(refused);
    return;
  }
  if (!has_room(&other->signals)) {
    reason = "refused: over the room for chains";
    return;
  }
  if (!table_slot_write(slot, newest + 1, table, length)) {
    reason = "refused: the memory did not keep it";
    return;
  }
  newest++;
  other->slot = slot;
  coming = 1;
  reason = "sound";
}

/* ---- The broker ---- */

static void lose(void) {
  if (connected) board_close();
  connected = 0;
}

static void transmit(uint16_t length, uint32_t now) {
  if (length == 0) return;
  sent_at = now;
  if (!board_transmit(leaving, length)) lose();
}

/* What connects; 0 when that does not fit. */
static uint16_t greet(void) {
  struct mqtt_hello hello = {0};
  hello.id = names->name;
  hello.will_topic = state_topic;
  hello.will = "lost";
  hello.user = names->user;
  hello.password = names->password;
  hello.keep_alive = KEEP_ALIVE_S;
  return mqtt_connect(&hello, leaving, LEAVING_ROOM);
}

static void connect(uint32_t now) {
  tried_at = now;
  if (!board_connect()) return;
  connected = 1;
  asked = told = 0;
  memset(reported, NEVER_REPORTED, sizeof reported);
  waiting_since = now;
  mqtt_begin(&client, arriving, sizeof arriving);
  transmit(greet(), now);
}

static void message(uint32_t now) {
  struct doublet *signals = &sides[shown].signals;
  const uint16_t identifier = client.identifier;
  uint8_t bus;
  if (client.topic_length == strlen(table_topic) && memcmp(client.topic, table_topic, client.topic_length) == 0)
    take_table(client.payload, client.payload_length);
  else
    for (bus = 0; bus < signals->buses; bus++)
      if (doublet_topic(signals, bus, client.topic, client.topic_length, (const char *)client.payload,
                        client.payload_length, now))
        changed = 1;
  if (identifier) transmit(mqtt_puback(identifier, leaving, sizeof leaving), now);
}

/* Takes some of what has arrived. More waits until LEDs had their turn, so that no flood of messages keeps them dark. */
static void receive(uint32_t now) {
  uint8_t bytes[256];
  const int32_t count = board_receive(bytes, sizeof bytes);
  int32_t i;
  if (count < 0) lose();
  for (i = 0; connected && i < count; i++) {
    switch (mqtt_take(&client, bytes[i])) {
      case MQTT_MESSAGE: message(now); break;
      case MQTT_BROKEN: case MQTT_REFUSED: lose(); break;
      case MQTT_NOT_SUBSCRIBED: reason = "the broker lets this board listen to no commands or tables"; told = 0; break;
      case MQTT_NOTHING: case MQTT_ACCEPTED: case MQTT_SUBSCRIBED: case MQTT_PUBLISHED: break;
    }
  }
}

static void tell_state(uint32_t now) {
  char text[200];
  const struct side *side = &sides[shown];
  const uint8_t *edition = side->signals.table + 8;
  const int length = snprintf(text, sizeof text, "installed %08lX edition %u offered %08lX slot %s room %u reason %s",
                              (unsigned long)doublet_checksum(&side->signals),
                              doublet_units(&side->signals) ? edition[0] | (unsigned)edition[1] << 8 : 0u, (unsigned long)offered,
                              side->slot == BUILT_IN ? "none" : side->slot ? "1" : "0", TABLE_ROOM, reason);
  told = 1;
  transmit(mqtt_publish(&client, state_topic, text, (uint16_t)length, 1, 1, leaving, sizeof leaving), now);
}

/* Reports the next unit that shows another aspect than was reported. */
static void report(uint32_t now) {
  struct doublet *signals = &sides[shown].signals;
  const uint16_t units = doublet_units(signals);
  uint16_t i;
  for (i = 0; i < units; i++) {
    char topic[TOPIC_ROOM + 16], text[4];
    const uint16_t unit = reporting < units ? reporting : 0;
    const uint8_t aspect = doublet_aspect(signals, unit, now);
    reporting = (uint16_t)(unit + 1);
    if (aspect == reported[unit]) continue;
    reported[unit] = aspect;
    snprintf(topic, sizeof topic, "%s/shown/%u", names->name, (unsigned)unit);
    snprintf(text, sizeof text, "%u", (unsigned)aspect);
    transmit(mqtt_publish(&client, topic, text, (uint16_t)strlen(text), 1, 1, leaving, sizeof leaving), now);
    return;
  }
}

/* Sends what is due. */
static void speak(uint32_t now) {
  static const uint8_t qos[] = {1, 1};
  const char *filters[2];
  if (!client.up || client.subscribing || client.publishing || client.awaiting) {
    /* The broker owes an answer. */
    if (now - waiting_since >= ANSWER_MS) lose();
    return;
  }
  waiting_since = now;
  if (asked != 1) {
    filters[0] = TABLE_COMMANDS;
    filters[1] = table_topic;
    asked = 1;
    transmit(mqtt_subscribe(&client, filters, qos, 2, leaving, sizeof leaving), now);
  } else if (!told) {
    tell_state(now);
  } else if (now - sent_at >= PING_MS) {
    transmit(mqtt_ping(&client, leaving, sizeof leaving), now);
  } else {
    report(now);
  }
}

/* ---- LEDs ---- */

/* A frame of all chains; a new table begins here. */
static void light(uint32_t now) {
  static uint8_t bytes[LED_ROOM + 3]; /* a LED of 4 channels may reach over the end */
  struct doublet_frame frame;
  uint8_t chain, count;
  if (coming) {
    shown = !shown;
    coming = told = 0;
    asked = 2; /* what is retained comes again, for its signals */
    memset(reported, NEVER_REPORTED, sizeof reported);
  }
  quiet = AT_LEAST_MS;
  for (chain = 0; chain < sides[shown].signals.chains; chain++) {
    uint16_t used = 0, rest;
    doublet_begin(&frame, &sides[shown].signals, chain, now);
    while (used < LED_ROOM && (count = doublet_next(&frame, bytes + used)) > 0) used = (uint16_t)(used + count);
    board_send(chain, bytes, used);
    rest = doublet_quiet(&frame);
    if (rest < quiet) quiet = rest;
  }
  changed = 0;
  lit_at = now;
}

enum mqtt_begun mqtt_signals_begin(const struct mqtt_names *how) {
  const size_t length = strlen(how->name);
  if (length == 0 || length > TOPIC_ROOM - sizeof "/state" - 1) return MQTT_WRONG_NAME;
  names = how;
  snprintf(state_topic, sizeof state_topic, "%s/state", names->name);
  snprintf(table_topic, sizeof table_topic, "%s/table", names->name);
  if (greet() == 0) return MQTT_LONG_NAMES;
  open_newest();
  changed = 1;
  tried_at = board_millis() - AGAIN_MS;
  return MQTT_BEGUN;
}

void mqtt_signals_go_on(void) {
  const uint32_t now = board_millis();
  if (connected) receive(now);
  if (connected) speak(now);
  else if (now - tried_at >= AGAIN_MS) connect(now);
  if (now - lit_at >= (changed || coming || quiet < FRAME_MS ? FRAME_MS : quiet)) light(now);
}

void mqtt_signals_end(void) {
  const uint32_t now = board_millis();
  if (!connected || !client.up) return;
  transmit(mqtt_publish(&client, state_topic, "away", 4, 0, 1, leaving, sizeof leaving), now);
  if (connected) transmit(mqtt_disconnect(leaving, sizeof leaving), now);
  lose();
}
