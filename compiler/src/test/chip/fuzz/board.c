/*
 * The whole firmware with MQTT at a broker that a fuzzer plays: packets that are right but for what they carry, any bytes,
 * tables that are whole, torn, or sound but for bytes that a fuzzer changed, connections that are cut, and power that is,
 * at any byte of a slot. Whenever the board comes up it must show a table that is whole.
 */
#include "mqtt_signals.c"

#include <stdlib.h>

#define SLOT_BYTES (TABLE_ROOM + TABLE_SLOT_BESIDE)

static uint8_t memory[TABLE_SLOTS][SLOT_BYTES];
static uint32_t now, left; /* left: bytes that are written before power fails; 0 for no end */
static uint8_t coming_in[3 * TABLE_ROOM];
static int32_t begun, ended; /* of the bytes on their way in; -1 when the connection is gone */
static uint8_t dead;

uint32_t board_millis(void) { return now; }

void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) {
  if (chain >= sides[shown].signals.chains || count > LED_ROOM || (count > 0 && !bytes)) abort();
}

uint8_t board_connect(void) {
  begun = ended = 0;
  return 1;
}

int32_t board_receive(uint8_t *bytes, uint16_t room) {
  const int32_t waiting = ended - begun, count = waiting < room ? waiting : room;
  if (begun < 0) return -1;
  memcpy(bytes, coming_in + begun, (size_t)count);
  begun += count;
  return count;
}

uint8_t board_transmit(const uint8_t *bytes, uint16_t count) { return bytes && count > 0 && begun >= 0; }

void board_close(void) {}

void board_slot_read(uint8_t slot, uint32_t at, uint8_t *bytes, uint16_t count) {
  if (at + count > SLOT_BYTES) abort();
  memcpy(bytes, memory[slot] + at, count);
}

static void change(uint8_t *byte, uint8_t to) {
  if (!dead) *byte = to;
  if (left > 0 && --left == 0) dead = 1;
}

void board_slot_erase(uint8_t slot) {
  uint32_t i;
  for (i = 0; i < SLOT_BYTES; i++) change(&memory[slot][i], 0xFF);
}

void board_slot_write(uint8_t slot, uint32_t at, const uint8_t *bytes, uint16_t count) {
  if (at + count > SLOT_BYTES) abort();
  for (; count > 0; count--, at++) change(&memory[slot][at], (uint8_t)(memory[slot][at] & *bytes++));
}

static void come_up(void) {
  static const struct mqtt_names who = {"bank", NULL, NULL};
  memset(sides, 0, sizeof sides);
  memset(&client, 0, sizeof client);
  shown = coming = connected = asked = told = 0;
  newest = offered = left = dead = 0;
  if (mqtt_signals_begin(&who) != MQTT_BEGUN || doublet_units(&sides[shown].signals) == 0) abort();
}

static void arrive(const uint8_t *bytes, size_t count) {
  if (begun < 0 || ended + count > sizeof coming_in) return;
  memcpy(coming_in + ended, bytes, count);
  ended += (int32_t)count;
}

static void publish(const char *topic, const uint8_t *payload, size_t count) {
  uint8_t head[8];
  const size_t length = 2 + strlen(topic) + count;
  head[0] = 0x31;
  head[1] = (uint8_t)(0x80 | (length & 0x7F));
  head[2] = (uint8_t)(length >> 7);
  head[3] = 0;
  head[4] = (uint8_t)strlen(topic);
  arrive(head, 5);
  arrive((const uint8_t *)topic, strlen(topic));
  arrive(payload, count);
}

/* The program's own table with a byte changed, and a checksum that is right, or wrong, or cut off. */
static void offer(const uint8_t *how) {
  uint8_t table[sizeof TABLE];
  size_t length = sizeof table, i;
  uint32_t sum = 0xFFFFFFFFu;
  memcpy(table, TABLE, length);
  table[(how[0] | how[1] << 8) % length] ^= how[2];
  for (i = 0; i < length - 4; i++) sum = doublet_sum(sum, table[i]);
  for (i = 0; i < 4 && how[3] & 1; i++) table[length - 4 + i] = (uint8_t)(~sum >> 8 * i);
  if (how[3] & 2) length = (size_t)how[3] * 4 % length;
  if (how[3] & 4) left = 1 + (how[2] | (uint32_t)how[3] << 8) % (2 * SLOT_BYTES);
  publish("bank/table", table, length);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  static const uint8_t accepted[] = {0x20, 2, 0, 0}, pong[] = {0xD0, 0};
  memset(memory, 0xFF, sizeof memory);
  now = 0;
  begun = -1;
  come_up();
  mqtt_signals_go_on();
  arrive(accepted, sizeof accepted);
  while (size > 0) {
    const uint8_t what = *data % 10, count = (uint8_t)(*data / 10);
    uint8_t reply[6] = {0x90, 4, 0, 0, 1, 1};
    data++;
    size--;
    switch (what) {
      case 0: arrive(accepted, sizeof accepted); break;
      case 1: /* what is owed is answered */
        if (client.subscribing) {
          reply[2] = (uint8_t)(client.subscribing >> 8);
          reply[3] = (uint8_t)client.subscribing;
          arrive(reply, 6);
        }
        if (client.publishing) {
          reply[0] = 0x40;
          reply[1] = 2;
          reply[2] = (uint8_t)(client.publishing >> 8);
          reply[3] = (uint8_t)client.publishing;
          arrive(reply, 4);
        }
        if (client.awaiting) arrive(pong, sizeof pong);
        break;
      case 2: case 3: { /* any bytes */
        const size_t some = count < size ? count : size;
        arrive(data, some);
        data += some;
        size -= some;
        break;
      }
      case 4: case 5:
        if (size < 4) return 0;
        offer(data);
        data += 4;
        size -= 4;
        break;
      case 6: {
        const size_t some = count < size ? count : size;
        publish("brackwater/signals/K1", data, some);
        data += some;
        size -= some;
        break;
      }
      case 7: begun = -1; break;
      case 8: come_up(); break;
      default: now += 100u * count + 20u; break;
    }
    mqtt_signals_go_on();
    if (dead) come_up();
    if (doublet_units(&sides[shown].signals) == 0) abort();
  }
  come_up();
  return 0;
}
